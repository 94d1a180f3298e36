import { describe, expect, test } from "vitest";
import { rigidWheel } from "../../src/models/rigidWheel.ts";
import { widerCircleWheel, widerRadius } from "../../src/models/widerCircleWheel.ts";
import type { WheelState } from "../../src/models/wheelSoil.ts";
import { agrees } from "../helpers/agrees.ts";

const wheel = { radiusM: 0.15, widthM: 0.1 };
const soil = { stiffness: 8e5, exponent: 1, exponentBySlip: 0, cohesionPa: 500, frictionAngleRad: (34 * Math.PI) / 180, shearModulusM: 0.012, stressAngle: 0.4, stressAngleBySlip: 0.2, rebound: 0 };
const spring = (stiffness: number) => ({ deflectionM: [1e-9, 0.1], loadN: [stiffness * 1e-9, stiffness * 0.1] });
const state = (found: ReturnType<typeof widerCircleWheel>): WheelState => {
  if ("reason" in found) throw new Error(found.reason);
  return found;
};

describe("the wider circle", () => {
  test("by hand", () => {
    agrees(widerRadius(0.15, 0.01, 0.01), { expected: 0.15 * (Math.SQRT2 + 1) ** 2, relative: 1e-12, source: "δ = z, the formula by hand" });
    expect(widerRadius(0.15, 0, 0.01)).toBeCloseTo(0.15, 15);
  });

  test("begins its contact where the flattened wheel does, for shallow ruts: chord of R* at z is the flat's half and the arc's reach", () => {
    // flattened by δ and sunk by z the wheel touches from √(2R(δ + z)) ahead of the axle to √(2Rδ) behind it
    const [delta, z] = [1e-4, 2e-4];
    const reach = Math.sqrt(2 * 0.15 * (delta + z)) + Math.sqrt(2 * 0.15 * delta);
    agrees(Math.sqrt(2 * widerRadius(0.15, delta, z) * z), { expected: reach, relative: 1e-12, source: "parabolas for shallow circles, by hand" });
  });
});

describe("between its limits", () => {
  test("a stiff wheel is rigid", () => {
    const [wide, rigid] = [state(widerCircleWheel(wheel, spring(1e13), 1, soil, 0.2, 60)), state(rigidWheel(wheel, soil, 0.2, 60))];
    for (const key of ["sinkageM", "pullN", "torqueNm"] as const) agrees(wide[key], { expected: rigid[key], relative: 2e-3, source: "rigid wheel, tests/models/rigidWheel.test.ts" });
  });

  test("the softer, the less it sinks and the more it pulls", () => {
    const rows = [1e3, 5e3, 2e4, 1e6].map((stiffness) => state(widerCircleWheel(wheel, spring(stiffness), 1, soil, 0.2, 60)));
    for (let i = 1; i < rows.length; i++) {
      expect(rows[i]?.sinkageM).toBeGreaterThan(rows[i - 1]?.sinkageM ?? 1);
      expect(rows[i]?.pullN).toBeLessThan(rows[i - 1]?.pullN ?? 0);
    }
  });
});

test("not flattened at all it is the rigid wheel", () => {
  const [wide, rigid] = [state(widerCircleWheel(wheel, spring(3e3), 0, soil, 0.2, 60)), state(rigidWheel(wheel, soil, 0.2, 60))];
  for (const key of ["sinkageM", "pullN", "torqueNm", "deflectionM"] as const) expect(wide[key]).toBeCloseTo(rigid[key], 9);
});

test("no balance is said", () => {
  expect(widerCircleWheel(wheel, { deflectionM: [0.001], loadN: [10] }, 1, soil, 0.2, 60)).toEqual({ reason: "the load–deflection curve ends below 60.0 N; measure it further" });
  expect(widerCircleWheel(wheel, spring(1e5), 1, { ...soil, stiffness: 100, cohesionPa: 0 }, 0.2, 60)).toEqual({ reason: "the soil does not carry 60.0 N before the wheel is in up to its axle" });
});

test("wrong calls", () => {
  expect(() => widerRadius(0.1, -1, 0.1)).toThrow(/deflection/);
  expect(() => widerCircleWheel(wheel, spring(1e5), 1, soil, 0.2, 0)).toThrow(/load/);
  expect(() => widerCircleWheel(wheel, spring(1e5), 1.5, soil, 0.2, 60)).toThrow(/share/);
});
