import { expect, test } from "vitest";
import { humpedShearStress } from "../../../src/models/shearDisplacement.ts";
import { humpedCurve, stressWithHump } from "../../../src/processing/measures/humpedCurve.ts";
import { agrees } from "../../helpers/agrees.ts";

test("the published points of a humped curve give its constants", () => {
  // six points as printed, to five digits
  const points = [[5, 6814.2], [10, 10171.0], [20, 12000], [40, 10629.8], [80, 8763.4], [200, 8400.9]].map(([mm, y]) => ({ x: (mm as number) / 1000, y: y as number }));
  const found = humpedCurve(points, 0.02);
  const source = "J. Y. Wong, Theory of Ground Vehicles, humped shear curve, formula from memory; points worked by hand for τ_m = 12 kPa, K_r = 0.7, K_w = 20 mm";
  [12e3, 8.4e3, 0.02].forEach((expected, i) => agrees(found?.values[i] ?? Number.NaN, { expected, relative: 1e-4, source }));
});

test("the form is that of the model", () => {
  for (const mm of [0, 3, 20, 90]) expect(stressWithHump(mm / 1000, [12e3, 8.4e3, 0.02])).toBeCloseTo(humpedShearStress(mm / 1000, { stressAtPeakPa: 12e3, residualRatio: 0.7, displacementAtPeakM: 0.02 }), 8);
  expect(stressWithHump(-1e-4, [12e3, 8.4e3, 0.02])).toBe(0);
});

test("what goes back to nothing, has no peak inside the travel or too few points has no residual stress", () => {
  const made = (f: (j: number) => number) => Array.from({ length: 40 }, (_, i) => ({ x: (i + 1) / 500, y: f((i + 1) / 500) }));
  expect(humpedCurve(made((j) => 12e3 * (j / 0.01) * Math.exp(1 - j / 0.01)), 0.01)).toBeNull();
  const humped = made((j) => humpedShearStress(j, { stressAtPeakPa: 12e3, residualRatio: 0.7, displacementAtPeakM: 0.02 }));
  expect(humpedCurve(humped, 0.08)).toBeNull();
  expect(humpedCurve(humped.slice(0, 4), 0.004)).toBeNull();
  expect(humpedCurve([], 0.004)).toBeNull();
});
