import { expect, test } from "vitest";
import type { Fit, OwnCauses } from "../../src/core/fit.ts";
import { functionOfFit, parameterEstimates, parameterEstimatesByCause } from "../../src/fitting/parameterEstimates.ts";
import { agrees } from "../helpers/agrees.ts";

const names = [{ name: "a", symbol: "a", unit: "1" as const }, { name: "b", symbol: "b", unit: "1" as const }];
const shift = { cause: "calibration A", sharedBy: "calibration A", degreesOfFreedom: Infinity, shifts: [0.3, -0.1] };
const parts = parameterEstimates([5, 7], names, [[0.04, -0.01], [-0.01, 0.09]], 6, "scatter", [shift], "made");
const fit: Fit = { model: "", formula: "", points: [], residuals: [], degreesOfFreedom: 6, verdict: "determined", sentence: "", findings: [], ...parts };

test("own and shared parts add in the covariance", () => {
  expect(parts.covariance[0]?.[0]).toBeCloseTo(0.13, 12);
  expect(parts.covariance[0]?.[1]).toBeCloseTo(-0.04, 12);
  expect(parts.parameters[1]?.estimate.standardUncertainty).toBeCloseTo(Math.sqrt(0.1), 12);
  expect(parts.parameters[0]?.estimate.budget.map((row) => row.cause)).toEqual(["calibration A", "scatter"]);
});

test("a sum of parameters uses their correlation, and a shared cause may cancel in it", () => {
  const sum = functionOfFit(fit, 12, [1, 1], "1", "sum");
  expect(sum.standardUncertainty).toBeCloseTo(Math.sqrt(0.04 + 0.09 - 0.02 + 0.2 ** 2), 12);
  const free = functionOfFit(fit, 5 + 21, [1, 3], "1", "a + 3 b");
  expect(free.budget.map((row) => row.cause)).toEqual(["scatter"]);
  expect(free.standardUncertainty).toBeCloseTo(Math.sqrt(0.04 + 9 * 0.09 - 6 * 0.01), 12);
});

test("a cause that may be there unseen leaves one degree of freedom at least", () => {
  // θ 1 known by eight degrees of freedom beside one of nothing whose doubt is a hundred times the whole
  const own: OwnCauses = { causes: ["seen", "unseen"], sizes: [1, 0], units: [[[1e-4]], [[1e-4]]], doubt: [[0.25, 0], [0, 1e4]], lost: [[0]] };
  const { parameters } = parameterEstimatesByCause([2], [{ name: "a", symbol: "a", unit: "1" }], own, [], "");
  agrees(parameters[0]?.estimate.degreesOfFreedom ?? Number.NaN, { expected: 1, relative: 1e-9, source: "the stated floor; without it 2/1e4" });
});
