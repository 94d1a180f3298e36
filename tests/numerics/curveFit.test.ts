import { describe, expect, test } from "vitest";
import { curveFit, type CurveFit } from "../../src/numerics/curveFit.ts";
import { lineFit } from "../../src/numerics/lineFit.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";
import type { CurveReference } from "./nist/curveReference.ts";
import { bennett5 } from "./nist/bennett5.ts";
import { boxBod } from "./nist/boxBod.ts";
import { chwirut1 } from "./nist/chwirut1.ts";
import { chwirut2 } from "./nist/chwirut2.ts";
import { danWood } from "./nist/danWood.ts";
import { eckerle4 } from "./nist/eckerle4.ts";
import { enso } from "./nist/enso.ts";
import { gauss1 } from "./nist/gauss1.ts";
import { gauss2 } from "./nist/gauss2.ts";
import { gauss3 } from "./nist/gauss3.ts";
import { lanczos1 } from "./nist/lanczos1.ts";
import { lanczos2 } from "./nist/lanczos2.ts";
import { lanczos3 } from "./nist/lanczos3.ts";
import { mgh09 } from "./nist/mgh09.ts";
import { mgh10 } from "./nist/mgh10.ts";
import { misra1a } from "./nist/misra1a.ts";
import { misra1b } from "./nist/misra1b.ts";
import { misra1c } from "./nist/misra1c.ts";
import { misra1d } from "./nist/misra1d.ts";
import { nelson } from "./nist/nelson.ts";
import { rat43 } from "./nist/rat43.ts";

const at = (row: readonly number[], i: number): number => row[i] as number;
const sixDigits = 5e-7;
const fitted = (set: CurveReference, start: number, maximumSteps = 1000): CurveFit => curveFit({ model: set.model, x: set.x, y: set.y, start: set.starts[start] as readonly number[], maximumSteps });

/** Six digits of every certified value, from the far start (0) and the near one (1). */
const both = [bennett5, boxBod, chwirut1, chwirut2, danWood, eckerle4, enso, gauss1, gauss2, gauss3, lanczos2, lanczos3, mgh09, misra1a, misra1b, misra1c, misra1d, nelson, rat43];

describe.each(both)("certified: $source", (set) => {
  test.each([0, 1])("from start %d", (start) => {
    const { source } = set;
    const fit = fitted(set, start);
    expect(fit.converged).toBe(true);
    set.parameters.forEach((expected, j) => agrees(at(fit.parameters, j), { expected, relative: sixDigits, source }));
    set.standardDeviations.forEach((expected, j) => agrees(at(fit.standardErrors, j), { expected, relative: sixDigits, source }));
    agrees(fit.sumOfSquares, { expected: set.residualSumOfSquares, relative: 1e-9, source });
    agrees(fit.residualSd, { expected: set.residualSd, relative: 1e-9, source });
    expect(fit.degreesOfFreedom).toBe(set.x.length - set.parameters.length);
    expect(fit.reducedChiSquare).toBeNull();
    expect(fit.residuals.reduce((total, residual) => total + residual * residual, 0)).toBeCloseTo(fit.sumOfSquares, 6);
  });
});

describe("less than six digits, and why", () => {
  test.each([0, 1])("Lanczos1 from start %d: every parameter, but of its residuals, 1e-13 of the data, doubles keep three digits", (start) => {
    const { source, parameters, standardDeviations, residualSumOfSquares } = lanczos1;
    const fit = fitted(lanczos1, start);
    expect(fit.converged).toBe(true);
    parameters.forEach((expected, j) => agrees(at(fit.parameters, j), { expected, relative: 1e-9, source }));
    agrees(fit.sumOfSquares, { expected: residualSumOfSquares, relative: 2e-3, source });
    standardDeviations.forEach((expected, j) => agrees(at(fit.standardErrors, j), { expected, relative: 1e-3, source }));
  });

  describe("MGH10", () => {
    const { source, parameters, standardDeviations, x, y } = mgh10;
    const holds = (fit: CurveFit): void => {
      expect(fit.converged).toBe(true);
      parameters.forEach((expected, j) => agrees(at(fit.parameters, j), { expected, relative: sixDigits, source }));
      standardDeviations.forEach((expected, j) => agrees(at(fit.standardErrors, j), { expected, relative: sixDigits, source }));
    };
    test("six digits from the near start", () => holds(fitted(mgh10, 1)));
    test("from the far start b1 shrinks by fifty powers of ten first: not there after 1000 steps, and said; there in the end", () => {
      const stopped = fitted(mgh10, 0);
      expect(stopped.converged).toBe(false);
      expect(stopped.reason).toContain("after 1000 steps");
      holds(fitted(mgh10, 0, 20_000));
    });
    test.each([0, 1])("with the logarithm of b1 from start %d without ado", (start) => {
      const [b1, ...others] = mgh10.starts[start] as readonly [number, number, number];
      const fit = curveFit({ model: (at, [a, b, c]) => Math.exp((a as number) + (b as number) / (at + (c as number))), x, y, start: [Math.log(b1), ...others] });
      expect(fit.converged).toBe(true);
      agrees(Math.exp(fit.parameters[0] as number), { expected: parameters[0] as number, relative: sixDigits, source });
      agrees(fit.parameters[1] as number, { expected: parameters[1] as number, relative: sixDigits, source });
      agrees(fit.standardErrors[2] as number, { expected: standardDeviations[2] as number, relative: sixDigits, source });
    });
  });
});

const saturating = (x: number, p: readonly number[]): number => at(p, 0) * (1 - Math.exp(-x / at(p, 1)));
const x = Array.from({ length: 20 }, (_, i) => 0.3 * (i + 1));
const exact = x.map((value) => saturating(value, [5, 1.7]));

describe("behaviour", () => {
  test("given slopes and differenced slopes tell the same", () => {
    const problem = { model: misra1a.model, x: misra1a.x, y: misra1a.y, start: misra1a.starts[1] as readonly number[] };
    const given = curveFit({ ...problem, jacobian: (value, b) => [1 - Math.exp(-at(b, 1) * value), at(b, 0) * value * Math.exp(-at(b, 1) * value)] });
    agrees(at(given.standardErrors, 0), { expected: at(misra1a.standardDeviations, 0), relative: 1e-9, source: misra1a.source });
    agrees(at(given.parameters, 1), { expected: at(misra1a.parameters, 1), relative: 1e-9, source: misra1a.source });
  });

  test("a straight line equals the line fit, weights included", () => {
    const y = x.map((value, i) => 1 + 2 * value + Math.sin(5 * i));
    const uncertainties = x.map((_, i) => 0.5 + 0.1 * i);
    const line = lineFit(x, y, uncertainties.map((u) => 1 / (u * u)));
    const fit = curveFit({ model: (value, p) => at(p, 0) + at(p, 1) * value, x, y, start: [0, 0], standardUncertainties: uncertainties });
    const source = "weighted linear least squares";
    agrees(at(fit.parameters, 0), { expected: line.intercept, relative: 1e-8, source });
    agrees(at(fit.parameters, 1), { expected: line.slope, relative: 1e-8, source });
    // stated uncertainties give the absolute covariance, the line's is scaled by the scatter
    agrees(at(fit.covariance[0] as readonly number[], 1) * (fit.reducedChiSquare as number), { expected: line.covariance[0][1], relative: 1e-8, source });
    agrees(fit.reducedChiSquare as number, { expected: line.residualSd ** 2, relative: 1e-10, source });
  });

  test("data without noise are met exactly", () => {
    const fit = curveFit({ model: saturating, x, y: exact, start: [1, 0.5] });
    expect(fit.converged).toBe(true);
    agrees(at(fit.parameters, 1), { expected: 1.7, relative: 1e-10, source: "the curve the data were made from" });
  });

  test("a stretched exponential comes back from its own curve", () => {
    const source = "NIST/SEMATECH e-Handbook, 4.5.1.1, fitted surface at 65 degrees: y = 4.99721 + 3.01998 exp(−(t/c)^1.16612), c = 3.06885 + 0.04187 · 65 + 0.01441 · 65²";
    const truth = [4.99721, 3.01998, 3.06885 + 0.04187 * 65 + 0.01441 * 65 ** 2, 1.16612];
    const model = (t: number, p: readonly number[]): number => at(p, 0) + at(p, 1) * Math.exp(-((t / at(p, 2)) ** at(p, 3)));
    const times = Array.from({ length: 30 }, (_, i) => 5 * (i + 1));
    const fit = curveFit({ model, x: times, y: times.map((t) => model(t, truth)), start: [4, 4, 40, 1] });
    truth.forEach((expected, j) => agrees(at(fit.parameters, j), { expected, relative: 1e-8, source }));
  });

  test("start values of zero", () => {
    const fit = curveFit({ model: (value, p) => at(p, 0) + at(p, 1) * value, x: [1, 2, 3], y: [3, 5, 7.1], start: [0, 0] });
    agrees(at(fit.parameters, 1), { expected: 2.05, relative: 1e-8, source: "line by hand" });
  });

  test("a bound that the data want to cross is held and named", () => {
    const fit = curveFit({ model: saturating, x, y: exact, start: [3, 1], lower: [0, 0.01], upper: [4, 10] });
    expect(fit.converged).toBe(true);
    expect(at(fit.parameters, 0)).toBe(4);
    expect(fit.atLimit).toEqual([true, false]);
    // the other parameter is the best for that bound: moving it either way is worse
    const sum = (k: number): number => x.reduce((total, value, i) => total + (at(exact, i) - saturating(value, [4, k])) ** 2, 0);
    expect(sum(at(fit.parameters, 1))).toBeLessThan(Math.min(sum(at(fit.parameters, 1) * 1.001), sum(at(fit.parameters, 1) * 0.999)));
  });

  test("a start on a bound that does not bind comes off it; a start outside is brought in", () => {
    const fit = curveFit({ model: saturating, x, y: exact, start: [8, 0.2], lower: [0, 0.2], upper: [8, 10] });
    expect(fit.atLimit).toEqual([false, false]);
    agrees(at(fit.parameters, 0), { expected: 5, relative: 1e-9, source: "the curve the data were made from" });
    expect(at(curveFit({ model: saturating, x, y: exact, start: [100, 1], upper: [8, 10] }).parameters, 0)).toBeCloseTo(5, 8);
  });

  test("a model that is not a number in places is walked around", () => {
    const y = [0.1, 0.5, 1.5, 3].map((value) => Math.log(value + 0.7));
    const fit = curveFit({ model: (value, p) => Math.log(value + at(p, 0)), x: [0.1, 0.5, 1.5, 3], y, start: [60] });
    agrees(at(fit.parameters, 0), { expected: 0.7, relative: 1e-9, source: "the curve the data were made from" });
  });

  test("no answer is a value", () => {
    const noStart = curveFit({ model: (value, p) => Math.log(at(p, 0) - value), x: [1, 2, 3], y: [0, 1, 2], start: [1] });
    expect(noStart.converged).toBe(false);
    expect(noStart.standardErrors[0]).toBeNaN();
    expect(noStart.reason).toMatch(/not finite at the start/);
    const twins = curveFit({ model: (value, p) => (at(p, 0) + at(p, 1)) * value, x: [1, 2, 3], y: [2, 4.1, 5.9], start: [1, 0.5] });
    expect(twins.standardErrors).toEqual([Number.NaN, Number.NaN]);
    expect(twins.conditionNumber).toBeGreaterThan(1e9);
    agrees(at(twins.parameters, 0) + at(twins.parameters, 1), { expected: 27.9 / 14, relative: 1e-8, source: "Σxy/Σx² by hand" });
    const near = curveFit({ model: (value, p) => at(p, 0) * value + at(p, 1) * (value + 1e-14 * value * value), x: [1, 2, 3], y: [2, 4.1, 5.9], start: [1, 0.5], jacobian: (value) => [value, value + 1e-14 * value * value] });
    expect(near.standardErrors).toEqual([Number.NaN, Number.NaN]);
    const idle = curveFit({ model: (value, p) => at(p, 0) * value, x: [1, 2], y: [1, 2.1], start: [3, 7] });
    expect(idle.converged).toBe(false);
    expect(idle.reason).toMatch(/lost all influence/);
    const stopped = curveFit({ model: mgh09.model, x: mgh09.x, y: mgh09.y, start: mgh09.starts[0] as readonly number[], maximumSteps: 5 });
    expect(stopped.converged).toBe(false);
    expect(stopped.reason).toMatch(/after 5 steps/);
    const saturated = curveFit({ model: (value, p) => at(p, 0) + at(p, 1) * value, x: [1, 2], y: [1, 3], start: [0, 1] });
    expect(saturated.degreesOfFreedom).toBe(0);
    expect(saturated.residualSd).toBeNaN();
    expect(saturated.standardErrors[0]).toBeNaN();
  });

  test("wrong calls", () => {
    const problem = { model: saturating, x: [1, 2, 3], y: [1, 2, 3], start: [1, 1] };
    for (const wrong of [{ y: [1, 2] }, { x: [1, 2, Number.NaN] }, { start: [1, Number.NaN] }, { start: [1, 1, 1, 1] }, { start: [] }, { standardUncertainties: [1, 0, 1] }, { standardUncertainties: [1] }, { lower: [0] }, { upper: [0] }, { lower: [2, 0], upper: [2, 1] }]) {
      expect(() => curveFit({ ...problem, ...wrong }), JSON.stringify(wrong)).toThrow(RangeError);
    }
  });

  test("stated uncertainties are honest: pulls have unit spread", () => {
    const random = seededRandom(8);
    const pulls: number[] = [];
    for (let trial = 0; trial < 400; trial++) {
      const fit: CurveFit = curveFit({ model: saturating, x, y: exact.map((value) => value + 0.1 * random.normal()), start: [4, 1], standardUncertainties: x.map(() => 0.1) });
      pulls.push((at(fit.parameters, 1) - 1.7) / at(fit.standardErrors, 1));
    }
    const spread = Math.sqrt(pulls.reduce((total, pull) => total + pull * pull, 0) / 400);
    agrees(spread, { expected: 1, within: 3 / Math.sqrt(800), source: "spread of standardised errors, three standard errors" });
  });
});
