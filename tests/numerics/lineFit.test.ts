import { describe, expect, test } from "vitest";
import { lineFit, polynomialFit, robustLine } from "../../src/numerics/lineFit.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";
import { filip } from "./nist/filip.ts";
import { norris } from "./nist/norris.ts";
import { pontius } from "./nist/pontius.ts";
import { wampler, wamplerX } from "./nist/wampler.ts";
import { scipy, scipySource } from "./scipyReference.ts";

const at = (row: readonly number[], i: number): number => row[i] as number;

describe("certified", () => {
  test("Norris, straight line", () => {
    const { source } = norris;
    const line = lineFit(norris.x, norris.y);
    agrees(line.intercept, { expected: at(norris.coefficients, 0), relative: 1e-11, source });
    agrees(line.slope, { expected: at(norris.coefficients, 1), relative: 1e-13, source });
    agrees(Math.sqrt(line.covariance[0][0]), { expected: at(norris.standardDeviations, 0), relative: 1e-12, source });
    agrees(Math.sqrt(line.covariance[1][1]), { expected: at(norris.standardDeviations, 1), relative: 1e-12, source });
    agrees(line.residualSd, { expected: norris.residualSd, relative: 1e-12, source });
    agrees(line.rSquared, { expected: norris.rSquared, relative: 1e-14, source });
    expect(line.degreesOfFreedom).toBe(34);
  });

  test.each([
    { set: norris, degree: 1, digits: 1e-11 },
    { set: pontius, degree: 2, digits: 1e-10 },
    { set: filip, degree: 10, digits: 1e-9 }, // condition number 1e15 in plain powers; centring is what saves it
  ])("$set.source, polynomial of degree $degree", ({ set, degree, digits }) => {
    const fit = polynomialFit(set.x, set.y, degree);
    expect(fit.coefficients.length).toBe(degree + 1);
    set.coefficients.forEach((expected, k) => agrees(at(fit.coefficients, k), { expected, relative: digits, source: set.source }));
    set.standardDeviations.forEach((expected, k) => agrees(Math.sqrt(at(fit.covariance[k] as readonly number[], k)), { expected, relative: digits, source: set.source }));
    agrees(fit.residualSd, { expected: set.residualSd, relative: 1e-9, source: set.source });
    expect(fit.degreesOfFreedom).toBe(set.x.length - degree - 1);
  });
});

test("the least force a force transducer is calibrated to, from the scatter about its curve", () => {
  const { coefficients, residualSd } = polynomialFit(pontius.x, pontius.y, 2);
  const source = "ASTM E74: 2.4 times the standard deviation about the curve, 400 times that for class A, 2000 times for AA (factors from memory), on the load cell of NIST StRD, Pontius";
  const least = (2.4 * residualSd) / at(coefficients, 1);
  agrees(2.4 * residualSd, { expected: 4.924258e-4, within: 6e-11, source });
  agrees(least, { expected: 672.66, within: 6e-3, source });
  agrees(400 * least, { expected: 269_063, within: 1, source });
  agrees(2000 * least, { expected: 1_345_317, within: 3, source });
});

describe("certified: polynomials whose y and deviations reach 10⁷ times their first coefficients", () => {
  test.each(wampler)("$source", ({ source, coefficients, standardDeviations, residualSd, y }) => {
    const fit = polynomialFit(wamplerX, y, 5);
    // the first coefficients stand in the last digits of y: a hundred roundings of its largest value, 1e-7 at worst
    const rounding = 2 ** -52 * Math.max(...y.map(Math.abs)) * 100;
    coefficients.forEach((expected, k) => agrees(at(fit.coefficients, k), { expected, within: rounding, source }));
    standardDeviations.forEach((expected, k) => agrees(Math.sqrt(at(fit.covariance[k] as readonly number[], k)), { expected, within: expected === 0 ? rounding : 1e-10 * expected, source }));
    agrees(fit.residualSd, { expected: residualSd, within: residualSd === 0 ? rounding : 1e-11 * residualSd, source });
  });
});

test("a polynomial through a window, read in its middle, weighs the samples as Savitzky and Golay print it", () => {
  /** what a sample of 1 at each place makes of the k-th derivative in the middle */
  const weights = (reach: number, degree: number, derivative: 0 | 1 | 2): number[] => {
    const x = Array.from({ length: 2 * reach + 1 }, (_, i) => i - reach);
    return x.map((place) => (derivative === 2 ? 2 : 1) * at(polynomialFit(x, x.map((other) => (other === place ? 1 : 0)), degree).coefficients, derivative));
  };
  const source = "A. Savitzky and M. J. E. Golay, Anal. Chem. 36 (1964) 1627, tables; derivatives with the corrections of J. Steinier 1972 (from memory, exact identities)";
  const rows = [
    [2, 2, 0, [-3, 12, 17, 12, -3], 35],
    [3, 3, 0, [-2, 3, 6, 7, 6, 3, -2], 21],
    [4, 2, 0, [-21, 14, 39, 54, 59, 54, 39, 14, -21], 231],
    [5, 3, 0, [-36, 9, 44, 69, 84, 89, 84, 69, 44, 9, -36], 429],
    [3, 4, 0, [5, -30, 75, 131, 75, -30, 5], 231],
    [6, 2, 0, [-11, 0, 9, 16, 21, 24, 25, 24, 21, 16, 9, 0, -11], 143],
    [2, 2, 1, [-2, -1, 0, 1, 2], 10],
    [2, 4, 1, [1, -8, 0, 8, -1], 12],
    [3, 3, 1, [22, -67, -58, 0, 58, 67, -22], 252],
    [2, 2, 2, [2, -1, -2, -1, 2], 7],
  ] as const;
  for (const [reach, degree, derivative, expected, over] of rows) weights(reach, degree, derivative).forEach((weight, i) => agrees(weight, { expected: at(expected, i) / over, within: 1e-12, source }));
});

describe("straight line", () => {
  test("weights count like repeats", () => {
    const x = [0, 1, 2, 5];
    const y = [1, 2.2, 2.9, 6.3];
    const weighted = lineFit(x, y, [1, 3, 1, 2]);
    const repeated = lineFit([0, 1, 1, 1, 2, 5, 5], [1, 2.2, 2.2, 2.2, 2.9, 6.3, 6.3]);
    const source = "whole weights are repeated points";
    agrees(weighted.slope, { expected: repeated.slope, relative: 1e-14, source });
    agrees(weighted.intercept, { expected: repeated.intercept, relative: 1e-13, source });
    agrees(weighted.rSquared, { expected: repeated.rSquared, relative: 1e-14, source });
    // same sum of squares, other degrees of freedom
    agrees(weighted.covariance[0][1] * 2, { expected: repeated.covariance[0][1] * 5, relative: 1e-12, source });
    agrees(lineFit(x, y, [10, 30, 10, 20]).covariance[1][1], { expected: weighted.covariance[1][1], relative: 1e-13, source: "a common factor of the weights drops out" });
  });

  test("a huge common offset costs no digits", () => {
    const plain = lineFit([0, 1, 2, 3], [0, 1.5, 2.5, 4]);
    const moved = lineFit([1e9, 1e9 + 1, 1e9 + 2, 1e9 + 3], [1e9, 1e9 + 1.5, 1e9 + 2.5, 1e9 + 4]);
    const weighted = lineFit([1e9, 1e9 + 1, 1e9 + 2, 1e9 + 3], [1e9, 1e9 + 1.5, 1e9 + 2.5, 1e9 + 4], [2, 2, 2, 2]);
    for (const line of [moved, weighted]) {
      agrees(line.slope, { expected: plain.slope, relative: 1e-14, source: "shifting the axes leaves the slope" });
      agrees(line.residualSd / plain.residualSd, { expected: line === weighted ? Math.SQRT2 : 1, relative: 1e-12, source: "shifting the axes leaves the scatter" });
    }
  });

  test("two points, one abscissa, a constant", () => {
    const two = lineFit([0, 2], [1, 5]);
    expect([two.intercept, two.slope, two.degreesOfFreedom]).toEqual([1, 2, 0]);
    expect(two.residualSd).toBeNaN();
    expect(two.covariance[1][1]).toBeNaN();
    expect(lineFit([3, 3, 3], [1, 2, 3]).slope).toBeNaN();
    expect(lineFit([1, 2, 3], [5, 5, 5]).rSquared).toBeNaN();
    expect(lineFit([1, 2, 3], [5, 5, 5]).slope).toBe(0);
  });

  test("wrong calls", () => {
    for (const wrong of [() => lineFit([1], [1]), () => lineFit([1, 2], [1]), () => lineFit([1, 2], [1, 2], [1]), () => lineFit([1, 2], [1, 2], [1, 0]), () => polynomialFit([1, 2], [1, 2], 2), () => polynomialFit([1, 2], [1, 2], 0.5), () => robustLine([1, 1], [1, 2]), () => robustLine(new Float64Array(2001), new Float64Array(2001))]) expect(wrong).toThrow(RangeError);
  });

  test("the stated interval holds the truth as often as stated", () => {
    const random = seededRandom(21);
    let inside = 0;
    for (let trial = 0; trial < 2000; trial++) {
      const x = Array.from({ length: 12 }, (_, i) => i + 3);
      const line = lineFit(x, x.map((value) => 2 - 0.7 * value + random.normal()));
      if (Math.abs(line.slope + 0.7) < 2.228139 * Math.sqrt(line.covariance[1][1])) inside++; // t for 95 %, 10 degrees of freedom
    }
    agrees(inside / 2000, { expected: 0.95, within: 3 * Math.sqrt((0.95 * 0.05) / 2000), source: "Student's t, three standard errors of the count" });
  });
});

describe("polynomial", () => {
  test("constant and exact cubic", () => {
    expect(polynomialFit([1, 2, 3], [4, 5, 6], 0).coefficients[0]).toBeCloseTo(5, 13);
    const x = [8, 8.2, 8.4, 8.6, 8.8, 9];
    const fit = polynomialFit(x, x.map((value) => 1 - 2 * value + value ** 3), 3);
    [1, -2, 0, 1].forEach((expected, k) => agrees(at(fit.coefficients, k), { expected, within: 1e-7, source: "a cubic through a cubic; x from 8 to 9 multiplies rounding by 1e8" }));
  });

  test("too few different x: the rank says so", () => {
    const fit = polynomialFit([1, 1, 2, 2], [1, 2, 3, 4], 2);
    expect(fit.rank).toBe(2);
    expect(fit.coefficients).toEqual([Number.NaN, Number.NaN, Number.NaN]);
  });
});

describe("robust line", () => {
  test("agrees with SciPy and ignores wild points", () => {
    // 30 points make 435 pairs, 28 make 378: an odd and an even number of slopes
    for (const count of [30, 28]) {
      const x = Array.from({ length: count }, (_, i) => i * 0.3);
      const y = x.map((value, i) => 1 + 2 * value + 0.1 * Math.sin(9 * i) + (i % 5 === 0 ? 50 : 0));
      const [[slope, intercept]] = scipy([["theilslopes", [y, x]]]) as [[number, number]];
      const line = robustLine(x, Float64Array.from(y));
      agrees(line.slope, { expected: slope, relative: 1e-12, source: scipySource });
      agrees(line.intercept, { expected: intercept, relative: 1e-12, source: scipySource });
      agrees(line.slope, { expected: 2, within: 0.1, source: "the line the data were made from" });
      expect(Math.abs(lineFit(x, y).intercept - 1)).toBeGreaterThan(5);
    }
  });
});
