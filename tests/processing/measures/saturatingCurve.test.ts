import { describe, expect, test } from "vitest";
import { lineFit } from "../../../src/numerics/lineFit.ts";
import { saturatingPressure } from "../../../src/models/saturatingPressure.ts";
import { missedStretches, pressureWithKnee, saturatingCurve } from "../../../src/processing/measures/saturatingCurve.ts";
import { agrees } from "../../helpers/agrees.ts";
import { scipy, scipySource } from "../../numerics/scipyReference.ts";

const at = (mm: readonly number[], kPa: readonly number[]) => mm.map((x, i) => ({ x: x / 1000, y: 1000 * (kPa[i] as number) }));
const depths = [2, 5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 79];
/** R. Kruger, P. S. Els and H. A. Hamersma, J. Terramechanics 109 (2023) 45–62, open data (CC BY 4.0): dense sand, method 4 */
const dense = at(depths, [87.1, 151.9, 198.5, 234.2, 267.7, 297.2, 331.3, 390.7, 435.1, 482.6, 541.9, 596.9]);

describe("plateau and rise", () => {
  test("exact points of the model give the constants back", () => {
    const made = depths.map((mm) => ({ x: mm / 1000, y: saturatingPressure(mm / 1000, { plateauPa: 2e5, buildUpM: 0.006, rise: 5e6 }) }));
    for (const { x, y } of made) expect(pressureWithKnee(x, [2e5, 0.006, 5e6])).toBeCloseTo(y, 6);
    const found = saturatingCurve(made);
    [2e5, 0.006, 5e6].forEach((expected, i) => agrees(found?.values[i] ?? Number.NaN, { expected, relative: 1e-6, source: "the curve the points were made from" }));
  });

  test("real dense sand, as another program fits it", () => {
    const found = saturatingCurve(dense);
    const [values, errors] = scipy([["saturating_fit", [dense.map(({ x }) => x), dense.map(({ y }) => y), [1.5e5, 0.004, 5e6]]]])[0] as [number[], number[]];
    values.forEach((expected, i) => agrees(found?.values[i] ?? Number.NaN, { expected, relative: 1e-5, source: `scipy.optimize.least_squares; ${scipySource}` }));
    // the scatter of neighbouring points that move together counts more than the plain fit has it
    errors.forEach((plain, i) => expect(Math.sqrt(found?.covariance[i]?.[i] ?? 0)).toBeGreaterThanOrEqual(0.999 * plain));
  });

  test("loose sand, built up before the first point: the build-up rests at its bound, plateau and rise are those of a straight line", () => {
    const loose = at(depths, [39.4, 59.8, 76.5, 94.4, 110.8, 128.6, 149.9, 190, 235.9, 290.7, 350.1, 412.7]);
    const found = saturatingCurve(loose);
    expect(found?.atBound).toEqual([false, true, false]);
    expect(found?.values[1]).toBe(0.0002);
    const line = lineFit(loose.map(({ x }) => x), loose.map(({ y }) => y));
    // at the first point the build-up still lacks e⁻¹⁰ of the plateau
    agrees(found?.values[0] ?? Number.NaN, { expected: line.intercept, relative: 1e-4, source: "straight line through the same points" });
    agrees(found?.values[2] ?? Number.NaN, { expected: line.slope, relative: 1e-4, source: "straight line through the same points" });
    expect(found?.covariance[1]).toEqual([0, 0, 0]);
  });

  test("a power law without a knee, too few points and none have no such curve", () => {
    expect(saturatingCurve(depths.map((mm) => ({ x: mm / 1000, y: 1e7 * (mm / 1000) ** 1.5 })))).toBeNull();
    expect(saturatingCurve(dense.slice(0, 4))).toBeNull();
    expect(saturatingCurve([])).toBeNull();
  });
});

test("stretches left out: a straight line misses none of a straight line, a mean what it is off by", () => {
  const line = Array.from({ length: 20 }, (_, i) => ({ x: i, y: 3 + 2 * i }));
  expect(missedStretches(line, () => (x) => 3 + 2 * x)).toBe(0);
  agrees(missedStretches(line, () => (x) => 4 + 2 * x), { expected: 1 / (3 + 2 * 9.5), relative: 1e-12, source: "by hand: 1 off everywhere, points 4 to 15 of mean 3 + 2 · 9.5" });
  const seen: number[] = [];
  missedStretches(line, (left) => { seen.push(left.length); return () => 0; });
  expect(seen).toEqual([16, 16, 16]);
  expect(missedStretches(line, () => null)).toBeNaN();
});
