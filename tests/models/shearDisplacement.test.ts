import { expect, test } from "vitest";
import { humpedShearStress, meanShearMobilised, peakedShearStress, shearMobilised } from "../../src/models/shearDisplacement.ts";
import { bekkerPressure } from "../../src/models/pressureSinkage.ts";
import { shearStrength } from "../../src/models/mohrCoulomb.ts";
import { agrees } from "../helpers/agrees.ts";

const deg = Math.PI / 180;

test("Mohr–Coulomb with Janosi–Hanamoto, dry sand and lunar soil", () => {
  const sand = "Janosi and Hanamoto 1961, worked from the formula with dry sand c = 1.04 kPa, φ = 28°, σ = 10 kPa, j = K";
  const strength = shearStrength(10e3, 1040, 28 * deg);
  agrees(strength, { expected: 6357.09, relative: 1e-5, source: sand });
  agrees(strength * shearMobilised(0.02, 0.02), { expected: 4018.45, relative: 1e-5, source: sand });
  const lunar = "lunar soil c = 0.17 kPa, φ = 35°, K = 17.8 mm (Mitchell et al. 1974; Carrier et al. 1991, third-party copy), σ = 5 kPa, j = 5 mm, worked from the formula";
  const lunarStrength = shearStrength(5e3, 170, 35 * deg);
  agrees(lunarStrength, { expected: 3671.04, relative: 1e-5, source: lunar });
  agrees(lunarStrength * shearMobilised(0.005, 0.0178), { expected: 899.02, relative: 1e-5, source: lunar });
});

test("points of the shape", () => {
  agrees(shearMobilised(1, 1), { expected: 0.632121, within: 5e-7, source: "the number 1 − 1/e" });
  agrees(shearMobilised(3, 1), { expected: 0.950213, within: 5e-7, source: "the number 1 − e^(−3)" });
  agrees(shearMobilised(1e-9, 1) / 1e-9, { expected: 1, within: 1e-6, source: "initial slope τ_max/K" });
});

test("the humped curve", () => {
  const constants = { stressAtPeakPa: 12e3, residualRatio: 0.7, displacementAtPeakM: 0.02 };
  const expected = [[5, 6814.2], [10, 10171.0], [20, 12000], [40, 10629.8], [80, 8763.4], [200, 8400.9]] as const;
  for (const [mm, stress] of expected) {
    agrees(humpedShearStress(mm / 1000, constants), { expected: stress, relative: 1e-4, source: "J. Y. Wong, Theory of Ground Vehicles, humped shear curve, formula from memory; worked by hand for τ_m = 12 kPa, K_r = 0.7, K_w = 20 mm" });
  }
});

test("the humped curve's greatest stress is not at K_w unless K_r is 0.6613", () => {
  const peakAt = (residualRatio: number): number => {
    const grid = Array.from({ length: 40001 }, (_, index) => index * 1e-6);
    return grid.reduce((best, j) => (humpedShearStress(j, { stressAtPeakPa: 12e3, residualRatio, displacementAtPeakM: 0.02 }) > humpedShearStress(best, { stressAtPeakPa: 12e3, residualRatio, displacementAtPeakM: 0.02 }) ? j : best));
  };
  const source = "own maximum of the humped formula, found on a fine grid by an independent program";
  agrees(peakAt(0.7), { expected: 0.020768, within: 2e-6, source });
  agrees(peakAt(0.9), { expected: 0.027154, within: 2e-6, source });
  agrees(peakAt(0.6613), { expected: 0.02, within: 2e-6, source });
  for (const [residualRatio, greatest] of [[0.7, 12005.5], [0.9, 12272]] as const) {
    agrees(humpedShearStress(peakAt(residualRatio), { stressAtPeakPa: 12e3, residualRatio, displacementAtPeakM: 0.02 }), { expected: greatest, relative: 5e-5, source });
  }
});

test("the curve that falls back to nothing", () => {
  const rows = [[5, 6351], [10, 9892.3], [20, 12000], [40, 8829.1], [80, 2389.8]] as const;
  for (const [mm, stress] of rows) agrees(peakedShearStress(mm / 1000, 12e3, 0.02), { expected: stress, within: 0.06, source: "J. Y. Wong, Theory of Ground Vehicles, formula from memory; worked by hand for τ_m = 12 kPa, K_w = 20 mm" });
});

test("mean along a contact that slips evenly", () => {
  const rows = [[0.02, 0.063291], [0.2, 0.445284], [0.5, 0.708575], [1, 0.848943]] as const;
  for (const [slip, share] of rows) agrees(meanShearMobilised(slip, 0.119, 0.018), { expected: share, within: 6e-7, source: "classic thrust formula, worked by hand for K = 18 mm, L = 119 mm" });
  expect(meanShearMobilised(0, 0.1, 0.01)).toBe(0);
});

test("two tracked vehicles on snow, textbook example", () => {
  // 67.5 kN a track; A: 1.0 m × 3.6 m, B: 0.8 m × 4.5 m; n 1.6, k_c 4.37, k_φ 196.72 kN and m; c 1 kPa, φ 19.7°, K 50 mm
  const source = "J. Y. Wong, Theory of Ground Vehicles, ch. 2, example of two tracked vehicles, from memory";
  const pressure = 67.5e3 / 3.6;
  const snow = { exponent: 1.6, cohesive: 4370, frictional: 196720 };
  const sunk = (width: number): number => (pressure / bekkerPressure(1, width, snow)) ** (1 / 1.6);
  const resistance = (width: number): number => 2 * width * bekkerPressure(1, width, snow) * (sunk(width) ** 2.6 / 2.6);
  agrees(sunk(1), { expected: 0.227, within: 6e-4, source });
  agrees(resistance(1), { expected: 3280, relative: 3e-3, source });
  agrees(resistance(0.8), { expected: 2610, relative: 3e-3, source });
  const thrust = (slip: number, length: number): number => 2 * 3.6 * shearStrength(pressure, 1000, 19.7 * deg) * meanShearMobilised(slip, length, 0.05);
  agrees(thrust(0.05, 3.6), { expected: 40530, relative: 3e-4, source: "the same example's thrust worked by an independent program" });
  agrees(thrust(0.8, 4.5), { expected: 54770, relative: 3e-4, source: "the same example's thrust worked by an independent program" });
});

test("wrong calls", () => {
  expect(() => peakedShearStress(1, 1, 0)).toThrow(/K_w/);
  expect(() => peakedShearStress(-1, 1, 1)).toThrow(/displacement/);
  expect(() => meanShearMobilised(-1, 1, 1)).toThrow(/slip/);
  expect(() => shearMobilised(1, 0)).toThrow(/K above/);
  expect(() => shearMobilised(-1, 1)).toThrow(/displacement/);
  expect(() => humpedShearStress(1, { stressAtPeakPa: 1, residualRatio: 0, displacementAtPeakM: 1 })).toThrow(/residual/);
});
