import { expect, test } from "vitest";
import { humpedShearStress, shearMobilised } from "../../src/models/shearDisplacement.ts";
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
});

test("wrong calls", () => {
  expect(() => shearMobilised(1, 0)).toThrow(/K above/);
  expect(() => shearMobilised(-1, 1)).toThrow(/displacement/);
  expect(() => humpedShearStress(1, { stressAtPeakPa: 1, residualRatio: 0, displacementAtPeakM: 1 })).toThrow(/residual/);
});
