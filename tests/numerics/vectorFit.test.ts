import { describe, expect, test } from "vitest";
import { leastSquares } from "../../src/numerics/linearAlgebra.ts";
import { vectorFit } from "../../src/numerics/vectorFit.ts";
import { agrees } from "../helpers/agrees.ts";

const x = [0, 1, 2, 3, 4];
const y = [1.1, 2.9, 5.2, 6.8, 9.1];
const wide = { start: [0, 1], lower: [-100, -100], upper: [100, 100], standardUncertainties: x.map(() => 0.2) };
const ones = x.map(() => 1);
const line = ([a = 0, b = 0]: readonly number[]): number[] => x.map((value) => a + b * value);

describe("a straight line with beliefs", () => {
  test("beliefs that say nothing leave ordinary least squares", () => {
    const fit = vectorFit({ ...wide, predict: line, slopes: () => [ones, x], y, priors: [{ mean: 0, sd: 1e6 }, { mean: 0, sd: 1e6 }] });
    const ordinary = leastSquares(x.map((value) => [1, value]), y, x.map(() => 25));
    fit.parameters.forEach((value, i) => agrees(value, { expected: ordinary.solution[i] as number, within: 1e-8, source: "the same line by linear least squares, tests/numerics/linearAlgebra.test.ts" }));
    expect(fit.residuals).toHaveLength(5);
    expect(fit.jacobian).toEqual(x.map((value) => [1, value]));
  });

  test("one datum and one belief meet in their weighted mean", () => {
    const fit = vectorFit({ predict: ([p = 0]) => [p], slopes: () => [[1]], y: [3], standardUncertainties: [1], start: [0], lower: [-10], upper: [10], priors: [{ mean: 0, sd: 2 }] });
    agrees(fit.parameters[0] as number, { expected: 2.4, within: 1e-9, source: "weighted mean of 3 ± 1 and 0 ± 2, by hand" });
    agrees(fit.standardErrors[0] as number, { expected: Math.sqrt(0.8), within: 1e-9, source: "1/(1 + 1/4), by hand" });
  });
});

test("parameters the data do not see keep their belief", () => {
  const fit = vectorFit({ ...wide, predict: ([a = 0]) => x.map(() => a), slopes: () => [ones, x.map(() => 0)], y: x.map(() => 2), priors: [{ mean: 0, sd: 10 }, { mean: 7, sd: 0.5 }] });
  agrees(fit.parameters[1] as number, { expected: 7, within: 1e-8, source: "the belief itself" });
  agrees(fit.standardErrors[1] as number, { expected: 0.5, within: 1e-8, source: "the belief itself" });
});

test("a model asked once a vector, not once a datum", () => {
  let [calls, asked] = [0, 0];
  vectorFit({ ...wide, predict: (p) => (calls++, line(p)), slopes: () => (asked++, [ones, x]), y, priors: [{ mean: 0, sd: 10 }, { mean: 0, sd: 10 }] });
  expect(calls).toBeLessThan(30);
  expect(asked).toBeLessThanOrEqual(calls);
});

test("wrong call", () => expect(() => vectorFit({ ...wide, predict: () => [1], slopes: () => [ones, x], y, priors: [{ mean: 0, sd: 1 }, { mean: 0, sd: 1 }] })).toThrow(/5 predictions/));
