import { describe, expect, test } from "vitest";
import { flexibleWheel } from "../../src/models/flexibleWheel.ts";
import { shearStrength } from "../../src/models/mohrCoulomb.ts";
import { rigidWheel } from "../../src/models/rigidWheel.ts";
import { meanShearMobilised } from "../../src/models/shearDisplacement.ts";
import type { WheelState } from "../../src/models/wheelSoil.ts";
import { agrees } from "../helpers/agrees.ts";

const wheel = { radiusM: 0.15, widthM: 0.1 };
const soil = { stiffness: 8e5, exponent: 1, exponentBySlip: 0, cohesionPa: 500, frictionAngleRad: (34 * Math.PI) / 180, shearModulusM: 0.012, stressAngle: 0, stressAngleBySlip: 0, rebound: 0 };
const spring = (stiffness: number, points = 60) => {
  const deflectionM = Array.from({ length: points }, (_, i) => 0.0005 * (i + 1));
  return { deflectionM, loadN: deflectionM.map((deflection) => stiffness * deflection) };
};
const state = (found: ReturnType<typeof flexibleWheel>): WheelState => {
  if ("reason" in found) throw new Error(found.reason);
  return found;
};

describe("between its two limits", () => {
  test("a very stiff wheel is a rigid one, driven and braked", () => {
    for (const slip of [-0.3, 0, 0.2, 0.8]) {
      const soft = state(flexibleWheel(wheel, spring(1e10), soil, slip, 60));
      const rigid = state(rigidWheel(wheel, soil, slip, 60));
      for (const key of ["sinkageM", "pullN", "torqueNm"] as const) agrees(soft[key], { expected: rigid[key], within: 1e-4 * Math.max(0.01, Math.abs(rigid[key])), source: "rigid wheel with its greatest stress under the axle, tests/models/rigidWheel.test.ts" });
    }
  });

  test("on ground that does not give the flat is that of the hard plate, and the pull is the classic thrust of a track", () => {
    const hard = { ...soil, stiffness: 1e13 };
    const found = state(flexibleWheel(wheel, spring(5000), hard, 0.1, 60));
    agrees(found.deflectionM, { expected: 0.012, relative: 1e-3, source: "60 N on a spring of 5 N/mm" });
    const length = 2 * Math.sqrt(0.012 * (0.3 - 0.012));
    const thrust = wheel.widthM * length * shearStrength(60 / (wheel.widthM * length), soil.cohesionPa, soil.frictionAngleRad) * meanShearMobilised(0.1, length, soil.shearModulusM);
    agrees(found.pullN, { expected: thrust, relative: 2e-3, source: "thrust of a track under even pressure, J. Y. Wong, Theory of Ground Vehicles, worked by hand" });
    agrees(found.torqueNm, { expected: thrust * (0.15 - 0.012), relative: 2e-3, source: "thrust times the height of the axle" });
  });

  test("the softer the wheel, the less it sinks and the more it pulls", () => {
    const rows = [1e3, 5e3, 2e4, 1e5, 1e7].map((stiffness) => state(flexibleWheel(wheel, spring(stiffness, 200), soil, 0.2, 60)));
    for (let i = 1; i < rows.length; i++) {
      expect((rows[i] as WheelState).sinkageM).toBeGreaterThan((rows[i - 1] as WheelState).sinkageM);
      expect((rows[i] as WheelState).pullN).toBeLessThan((rows[i - 1] as WheelState).pullN);
    }
  });
});

test("the ground under the flat presses as hard as the wheel carries", () => {
  const found = state(flexibleWheel(wheel, spring(5000), soil, 0.2, 60));
  const length = 2 * Math.sqrt(found.deflectionM * (0.3 - found.deflectionM));
  agrees(soil.stiffness * found.sinkageM, { expected: (5000 * found.deflectionM) / (wheel.widthM * length), relative: 1e-9, source: "p = F/(b l), by hand" });
});

test("between the points of a coarse curve straight lines", () => {
  const coarse = { deflectionM: [0.01, 0.03], loadN: [50, 150] };
  expect(state(flexibleWheel(wheel, coarse, soil, 0.2, 60)).pullN).toBeCloseTo(state(flexibleWheel(wheel, spring(5000), soil, 0.2, 60)).pullN, 6);
});

describe("no balance", () => {
  test("beyond the measured curve", () => {
    expect(flexibleWheel(wheel, spring(1000, 4), soil, 0.2, 60)).toEqual({ reason: expect.stringMatching(/curve ends at 2\.00 mm, where the ground carries .* N; measure it further for 60\.0 N/) });
  });

  test("soil too weak", () => {
    expect(flexibleWheel(wheel, spring(5000), { ...soil, stiffness: 100, cohesionPa: 0 }, 0.2, 60)).toEqual({ reason: "the soil does not carry 60.0 N before the wheel is in up to its axle" });
  });
});

test("wrong calls", () => {
  expect(() => flexibleWheel(wheel, spring(5000), soil, -1, 60)).toThrow(/slip/);
  expect(() => flexibleWheel(wheel, spring(5000), soil, 0, 0)).toThrow(/load/);
  expect(() => flexibleWheel(wheel, { deflectionM: [0.01, 0.005], loadN: [1, 2] }, soil, 0, 1)).toThrow(/rising/);
  expect(() => flexibleWheel(wheel, { deflectionM: [], loadN: [] }, soil, 0, 1)).toThrow(/rising/);
});
