import { describe, expect, test } from "vitest";
import { bekkerTowedWheel } from "../../src/models/bekkerWheel.ts";
import type { TowedWheel } from "../../src/models/bekkerWheel.ts";
import { rigidWheelForces } from "../../src/models/rigidWheel.ts";
import { agrees } from "../helpers/agrees.ts";

const soils = {
  drySand: { exponent: 1.1, cohesive: 990, frictional: 1528.43e3 },
  lunar: { exponent: 1, cohesive: 1400, frictional: 820e3 },
  firmSand: { exponent: 0.79, cohesive: 102e3, frictional: 5301e3 },
  snow: { exponent: 1.6, cohesive: 4370, frictional: 196.72e3 },
};
const small = { radiusM: 0.1, widthM: 0.1 };
const towed = (found: ReturnType<typeof bekkerTowedWheel>): TowedWheel => {
  if ("reason" in found) throw new Error(found.reason);
  return found;
};

test("50 N on a wheel of 0.2 m by 0.1 m", () => {
  const source = "M. G. Bekker 1956, both printed forms of the resistance, worked by an independent program; soils from the terrain table of J. Y. Wong, Theory of Ground Vehicles, from memory";
  const rows = [[soils.drySand, 14.5331, 10.134], [soils.lunar, 15.9314, 10.5838], [soils.firmSand, 1.5635, 3.3526]] as const;
  for (const [soil, mm, resistance] of rows) {
    const found = towed(bekkerTowedWheel(small, soil, 50));
    agrees(1000 * found.sinkageM, { expected: mm, within: 6e-5, source });
    agrees(found.resistanceN, { expected: resistance, within: 6e-5, source });
  }
});

test("lecture example of the rover of 1971: 259 N a wheel", () => {
  const found = towed(bekkerTowedWheel({ radiusM: 0.813 / 2, widthM: 0.229 }, soils.lunar, 259));
  const source = "planetary surface robotics lecture on terramechanics, values seen in a student's script; resistance printed as 28.3 N a wheel and 113 N for four";
  agrees(found.resistanceN, { expected: 28.3, within: 0.05, source });
  agrees(4 * found.resistanceN, { expected: 113, within: 0.5, source });
  agrees(found.criticalPressurePa, { expected: 14300.6, within: 0.06, source: "k^(1/(2n+1)) [3W/((3−n) b √D)]^(2n/(2n+1)), the other form of the same pressure, worked by hand" });
});

test("deep ruts are refused", () => {
  expect(bekkerTowedWheel(small, soils.snow, 50)).toEqual({ reason: "the closed form gives a sinkage of 111 mm, beyond 0.15 of the diameter, where it does not hold" });
});

describe("as a limit of the stress integrals", () => {
  const drum = { radiusM: 0.15, widthM: 0.1 };
  const smooth = (exponent: number) => ({ stiffness: 1e6, exponent, exponentBySlip: 0, cohesionPa: 0, frictionAngleRad: 0, shearModulusM: 0.01, stressAngle: 0, stressAngleBySlip: 0, rebound: 0 });

  test("its load is off the exact one by the known ratio", () => {
    const rows = [[0.5, 1.08864], [0.8, 1.05989], [1, 1.02066], [1.1, 0.99566], [1.6, 0.82286]] as const;
    for (const [n, ratio] of rows) {
      const z = 0.02;
      const exact = rigidWheelForces(drum, smooth(n), 0, z).loadN;
      const closed = (drum.widthM * 1e6 * Math.sqrt(0.3) * z ** (n + 0.5) * (3 - n)) / 3;
      agrees(closed / exact, { expected: ratio, within: 6e-6, source: "both sides integrated by an independent program, z/D = 0.0667" });
    }
  });

  test("at the same sinkage the resistance is the same", () => {
    const found = towed(bekkerTowedWheel(drum, { exponent: 1, cohesive: 0, frictional: 1e6 }, 100));
    expect(-rigidWheelForces(drum, smooth(1), 0.3, found.sinkageM).pullN).toBeCloseTo(found.resistanceN, 8);
  });
});

test("wrong calls", () => {
  expect(() => bekkerTowedWheel(small, soils.lunar, 0)).toThrow(/load/);
  expect(() => bekkerTowedWheel(small, { ...soils.lunar, exponent: 3 }, 1)).toThrow(/exponent/);
  expect(bekkerTowedWheel(small, { exponent: 1, cohesive: -1e6, frictional: 1 }, 1)).toHaveProperty("reason");
});
