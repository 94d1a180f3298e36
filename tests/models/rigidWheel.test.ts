import { describe, expect, test } from "vitest";
import { rigidWheel, rigidWheelForces } from "../../src/models/rigidWheel.ts";
import type { WheelState, WheelSoil } from "../../src/models/wheelSoil.ts";
import { agrees } from "../helpers/agrees.ts";
import { scipy, scipySource } from "../numerics/scipyReference.ts";

const deg = Math.PI / 180;
const wheel = { radiusM: 0.09, widthM: 0.11 };
const soil: WheelSoil = { stiffness: 1370 / 0.11 + 8.14e5, exponent: 1, exponentBySlip: 0, cohesionPa: 800, frictionAngleRad: 37.2 * deg, shearModulusM: 0.036, stressAngle: 0.4, stressAngleBySlip: 0.15, rebound: 0 };
const adaptive = "soil and wheel of G. Ishigami et al., J. Field Robotics 24 (2007), third-party copies; integrated by an independent program with adaptive and 200-node quadrature agreeing to 12 digits";

const state = (found: ReturnType<typeof rigidWheel>): WheelState => {
  if ("reason" in found) throw new Error(found.reason);
  return found;
};

describe("forces at a sinkage of 10 mm", () => {
  test("driven, slip 0.2", () => {
    const { loadN, pullN, torqueNm } = rigidWheelForces(wheel, soil, 0.2, 0.01);
    agrees(loadN, { expected: 17.728047, within: 5e-7, source: adaptive });
    agrees(pullN, { expected: -1.66131, within: 5e-7, source: adaptive });
    agrees(torqueNm, { expected: 0.21629, within: 5e-8, source: adaptive });
  });

  test("of the driven wheel's pull, the part of the pressure alone", () => {
    const { pullN } = rigidWheelForces(wheel, { ...soil, cohesionPa: 0, frictionAngleRad: 0 }, 0.2, 0.01);
    agrees(pullN, { expected: -4.011399, within: 5e-7, source: adaptive });
  });

  test("braked, slip −0.2", () => {
    const { loadN, pullN, torqueNm } = rigidWheelForces(wheel, soil, -0.2, 0.01);
    agrees(loadN, { expected: 18.356989, within: 5e-7, source: adaptive });
    agrees(pullN, { expected: -6.06403, within: 5e-7, source: adaptive });
    agrees(torqueNm, { expected: -0.1731774, within: 5e-8, source: adaptive });
  });
});

test("from dust to clay, driven, braked and with a rim that leaves behind the axle: as SciPy integrates", () => {
  const cases: readonly (readonly [WheelSoil, number, number])[] = [
    [soil, 0.2, 0.01],
    [{ ...soil, rebound: 0.3 }, 0.6, 0.02],
    [{ ...soil, exponent: 1.6, shearModulusM: 0.005 }, 0.05, 0.03],
    [{ ...soil, exponent: 0.5, stiffness: 3e4, cohesionPa: 4000, frictionAngleRad: 13 * deg }, 0.9, 0.005],
    [{ ...soil, stressAngle: 0.43, stressAngleBySlip: 0.32 }, -0.3, 0.015],
    [{ ...soil, stressAngle: 0, stressAngleBySlip: 0 }, 1, 0.008],
  ];
  const answers = scipy(cases.map(([ground, slip, sinkage]) => ["wheel_forces", [[wheel.radiusM, wheel.widthM], [ground.stiffness, ground.exponent, ground.cohesionPa, ground.frictionAngleRad, ground.shearModulusM, ground.stressAngle, ground.stressAngleBySlip, ground.rebound], slip, sinkage]])) as [number, number, number][];
  const source = `scipy.integrate.quad (1e-10) on each side of the greatest stress; ${scipySource}`;
  cases.forEach(([ground, slip, sinkage], i) => {
    const { loadN, pullN, torqueNm } = rigidWheelForces(wheel, ground, slip, sinkage);
    const [load, pull, torque] = answers[i] as [number, number, number];
    agrees(loadN, { expected: load, within: 1e-6 * load, source });
    agrees(pullN, { expected: pull, within: 1e-6 * load, source });
    agrees(torqueNm, { expected: torque, within: 1e-6 * load * wheel.radiusM, source });
  });
});

test("in balance with 64.7 N, over slip", () => {
  const rows = [[0, 23.5843, -15.9613, 0.64496], [0.1, 23.645, -12.2807, 0.98228], [0.2, 23.739, -9.1166, 1.27637], [0.4, 24.0199, -4.0399, 1.76051], [0.6, 24.4184, -0.2648, 2.13766], [0.8, 24.9333, 2.5241, 2.43533]] as const;
  for (const [slip, mm, pull, torque] of rows) {
    const found = state(rigidWheel(wheel, soil, slip, 64.7));
    agrees(1000 * found.sinkageM, { expected: mm, within: 6e-5, source: adaptive });
    agrees(found.pullN, { expected: pull, within: 6e-5, source: adaptive });
    agrees(found.torqueNm, { expected: torque, within: 6e-6, source: adaptive });
    expect(found.loadN).toBe(64.7);
  }
});

test("a wheel of 0.3 m by 0.1 m under 60 N", () => {
  const soft = { stiffness: 8e5, exponent: 1, exponentBySlip: 0, cohesionPa: 500, frictionAngleRad: 34 * deg, shearModulusM: 0.012, stressAngle: 0.4, stressAngleBySlip: 0.2, rebound: 0 };
  const found = state(rigidWheel({ radiusM: 0.15, widthM: 0.1 }, soft, 0.2, 60));
  const source = "an independent program for the same integrals, printed to three digits";
  agrees(found.pullN, { expected: 8.68, within: 5e-3, source });
  agrees(found.torqueNm, { expected: 3.53, within: 5e-3, source });
  agrees(1000 * found.sinkageM, { expected: 20.1, within: 0.05, source });
});

describe("limits known exactly", () => {
  /** no friction, no cohesion, greatest stress under the axle, no contact behind it */
  const smooth = { ...soil, cohesionPa: 0, frictionAngleRad: 0, stressAngle: 0, stressAngleBySlip: 0, stiffness: 1e6 };

  test("without shear the resistance is the work of pressing the rut, b k z^(n+1)/(n+1)", () => {
    const drum = { radiusM: 0.15, widthM: 0.1 };
    const rows = [[0.5, 188.5618], [0.8, 48.59387], [1, 20], [1.1, 12.88083], [1.6, 1.471312]] as const;
    for (const [exponent, resistance] of rows) {
      const { pullN } = rigidWheelForces(drum, { ...smooth, exponent }, 0.2, 0.02);
      agrees(-pullN, { expected: resistance, relative: 1e-6, source: "∫ p dz under a plate, by hand" });
      agrees(-pullN, { expected: (0.1 * 1e6 * 0.02 ** (exponent + 1)) / (exponent + 1), relative: 1e-8, source: "∫ p dz under a plate, by hand" });
    }
  });

  test("where shear has hardly begun the torque is the mean shear displacement under the rim, driven and braked", () => {
    // cohesion alone and K far beyond j: τ = c j/K, and ∫ j dθ has a closed form; entry at 30°
    const sticky = { ...soil, frictionAngleRad: 0, cohesionPa: 1000, shearModulusM: 1e4 };
    const entry = 30 * deg;
    const slide = (theta: number, ratio: number): number => 0.09 * (entry - theta - ratio * (Math.sin(entry) - Math.sin(theta)));
    const published = [[0, 2.12389, 1.85566], [0.2, 11.12389, 6.19692], [0.5, 24.62389, 12.7088], [1, 47.12389, 23.56194]] as const;
    for (const [slip, below, halfWay] of published) {
      const source = "J. Y. Wong and A. R. Reece 1967, the driven wheel's j [mm] at its lowest point and at half the entry angle, worked by an independent program";
      agrees(1000 * slide(0, 1 - slip), { expected: below, within: 6e-6, source });
      agrees(1000 * slide(entry / 2, 1 - slip), { expected: halfWay, within: 6e-6, source });
    }
    for (const [slip, ratio] of [[0, 1], [0.2, 0.8], [0.5, 0.5], [1, 0], [-0.2, 1 / 0.8]] as const) {
      const { torqueNm } = rigidWheelForces(wheel, sticky, slip, 0.09 * (1 - Math.cos(entry)));
      const mean = 0.09 * (entry ** 2 / 2 - ratio * (entry * Math.sin(entry) + Math.cos(entry) - 1));
      const count = 2000;
      const midpoints = Array.from({ length: count }, (_, i) => slide((entry * (i + 0.5)) / count, ratio)).reduce((sum, j) => sum + (j * entry) / count, 0);
      agrees(mean, { expected: midpoints, relative: 1e-6, source: "midpoint sum of j over the contact" });
      agrees(torqueNm, { expected: (0.09 ** 2 * 0.11 * 1000 * mean) / 1e4, relative: 1e-5, source: "J. Y. Wong and A. R. Reece 1967: j = R[(θ₁ − θ) − f (sin θ₁ − sin θ)], integrated by hand; j/K below 5e-6" });
    }
  });

  test("with shear fully mobilised and no cohesion the torque is R tan φ times the sum of the pressure", () => {
    const rough = { ...soil, cohesionPa: 0, shearModulusM: 1e-9 };
    const { loadN, torqueNm } = rigidWheelForces(wheel, { ...rough, stressAngle: 0.4, stressAngleBySlip: 0 }, 0.5, 0.01);
    const tan = Math.tan(rough.frictionAngleRad);
    const entry = Math.acos(1 - 0.01 / 0.09);
    const count = 400_000;
    let [sum, vertical] = [0, 0];
    for (let i = 0; i < count; i++) {
      const theta = (entry * (i + 0.5)) / count;
      const mapped = theta >= 0.4 * entry ? theta : entry - (theta / (0.4 * entry)) * 0.6 * entry;
      const sigma = rough.stiffness * 0.09 * (Math.cos(mapped) - Math.cos(entry));
      sum += (sigma * entry) / count;
      vertical += (sigma * (Math.cos(theta) + tan * Math.sin(theta)) * entry) / count;
    }
    agrees(torqueNm, { expected: 0.09 ** 2 * 0.11 * tan * sum, relative: 1e-7, source: "midpoint sum of the radial pressure written here" });
    agrees(loadN, { expected: 0.09 * 0.11 * vertical, relative: 1e-7, source: "midpoint sum of the radial pressure written here" });
  });
});

test("the quadrature leaves less than a millionth of the load, from stiff clay to snow", () => {
  for (const exponent of [0.13, 0.3, 0.5, 0.8, 1.1, 1.6, 2]) {
    for (const slip of [-0.6, -0.2, -0.02, 0, 0.02, 0.3, 0.95]) {
      for (const rebound of [0, 0.5]) {
        for (const shearModulusM of [0.002, 0.03]) {
          const ground = { ...soil, exponent, rebound, shearModulusM };
          const coarse = rigidWheelForces(wheel, ground, slip, 0.01);
          const fine = rigidWheelForces(wheel, ground, slip, 0.01, 400);
          const size = Math.max(fine.loadN, Math.hypot(fine.loadN, fine.pullN));
          const where = `n ${exponent}, s ${slip}, λ ${rebound}, K ${shearModulusM}`;
          const bound = 1e-6;
          expect(Math.abs(coarse.loadN - fine.loadN) / size, where).toBeLessThan(bound);
          expect(Math.abs(coarse.pullN - fine.pullN) / size, where).toBeLessThan(bound);
          expect(Math.abs(coarse.torqueNm - fine.torqueNm) / (size * wheel.radiusM), where).toBeLessThan(bound);
        }
      }
    }
  }
});

describe("no balance", () => {
  test("soil too weak: said with the load", () => {
    expect(rigidWheel(wheel, { ...soil, stiffness: 100 }, 0.2, 64.7)).toEqual({ reason: "the soil does not carry 64.7 N before the wheel is in up to its axle" });
    expect(rigidWheel(wheel, { ...soil, stiffness: 100 }, 0.2, 1234)).toEqual({ reason: "the soil does not carry 1230 N before the wheel is in up to its axle" });
  });

  test("the balance holds wherever there is one, over six decades of load", () => {
    for (const load of [1e-3, 0.1, 10, 300]) for (const slip of [-0.5, 0, 0.9]) {
      const found = state(rigidWheel(wheel, soil, slip, load));
      expect(rigidWheelForces(wheel, soil, slip, found.sinkageM).loadN / load).toBeCloseTo(1, 9);
    }
  });
});

test("a bed that gives way with slip lets the wheel sink deeper", () => {
  const digging = { ...soil, exponentBySlip: 0.2 };
  const at = (slip: number): number => state(rigidWheel(wheel, digging, slip, 20)).sinkageM;
  expect(at(0)).toBeCloseTo(state(rigidWheel(wheel, soil, 0, 20)).sinkageM, 12);
  expect(at(0.6)).toBeGreaterThan(1.2 * state(rigidWheel(wheel, soil, 0.6, 20)).sinkageM);
});

test("wrong calls", () => {
  expect(() => rigidWheelForces(wheel, soil, -1, 0.01)).toThrow(/slip/);
  expect(() => rigidWheelForces(wheel, soil, 1.01, 0.01)).toThrow(/slip/);
  expect(() => rigidWheelForces(wheel, soil, 0, 0)).toThrow(/sinkage/);
  expect(() => rigidWheelForces(wheel, soil, 0, 0.1)).toThrow(/sinkage/);
  expect(() => rigidWheel(wheel, soil, 0, 0)).toThrow(/load/);
});
