import { describe, expect, test } from "vitest";
import { differencePower, effectPower, repeatsNeeded } from "../../src/numerics/comparisonPower.ts";
import { normalQuantile, studentTQuantile } from "../../src/numerics/distributions.ts";
import { noncentralFCdf, noncentralTCdf } from "../../src/numerics/noncentral.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { welchTest } from "../../src/numerics/tTests.ts";
import { agrees } from "../helpers/agrees.ts";
import { scipyNumbers, scipySource, type Request } from "./scipyReference.ts";

test("distributions off centre, against a library", () => {
  const fCases: readonly (readonly [f: number, u: number, v: number, lambda: number])[] = [[2, 3, 10, 0], [2, 3, 10, 4], [0.5, 1, 4, 9], [30, 2, 60, 40], [0, 3, 10, 4], [1.2, 5.5, 7.3, 200]];
  const tCases: readonly (readonly [t: number, dof: number, delta: number])[] = [[2, 10, 1], [-1, 4, 0.5], [0, 6, 2], [12, 30, 10], [3, 2.5, -1], [1.5, 8, 0], [-3, 5, -4]];
  const answers = scipyNumbers([...fCases.map((one): Request => ["ncf.cdf", [...one]]), ...tCases.map((one): Request => ["nct.cdf", [...one]])]);
  fCases.forEach((one, i) => agrees(noncentralFCdf(...one), { expected: answers[i] as number, within: 1e-9, source: scipySource }));
  tCases.forEach((one, i) => agrees(noncentralTCdf(...one), { expected: answers[fCases.length + i] as number, within: 1e-9, source: scipySource }));
  agrees(noncentralFCdf(studentTQuantile(0.975, 9) ** 2, 1, 9, 0), { expected: 0.95, within: 1e-12, source: "without an effect F(1, ν) is t²" });
});

describe("power as another program prints it", () => {
  const source = "R package pwr, results quoted in statsmodels' test_power.py";
  test("difference of two means, of one, of pairs", () => {
    agrees(differencePower(1, [30, 30], 0.05, 2), { expected: 0.967708258, within: 1e-8, source });
    agrees(differencePower(0.1, [20, 20], 0.05, 2), { expected: 0.060959125, within: 1e-8, source });
    agrees(differencePower(1, [30, 30], 0.05, 1), { expected: 0.98545969, within: 1e-8, source });
    agrees(differencePower(0.1, [20, 30], 0.05, 2), { expected: 0.063308183, within: 1e-8, source });
    agrees(differencePower(0.2, [20], 0.05, 2), { expected: 0.135956289, within: 1e-8, source });
    agrees(differencePower(0.05, [20], 0.05, 1), { expected: 0.076488879, within: 1e-8, source });
    agrees(differencePower(1, [30], 0.05, 2), { expected: 0.999563601, within: 1e-8, source });
  });
  test("effect by F", () => {
    agrees(effectPower(5, 199, 0.01, 0.01), { expected: 0.049413773, within: 1e-8, source });
    agrees(effectPower(5, 199, 0.09, 0.01), { expected: 0.796719101, within: 1e-8, source });
    agrees(effectPower(5, 19, 0.09, 0.1), { expected: 0.235454222, within: 1e-8, source });
  });
});

describe("repeats needed", () => {
  test("as tabulated", () => {
    const tables = "J. Cohen 1988, tables 2.4.1 and 8.4.4 (from memory): 393, 64, 26 a group for d 0.2, 0.5, 0.8; 52 and 21 a group of three for f 0.25, 0.40; worked out to two decimals by an independent program";
    for (const [effect, groups, expected] of [[0.1, 2, 393.41], [0.25, 2, 63.77], [0.4, 2, 25.52], [0.25, 3, 52.4], [0.4, 3, 21.1]] as const) agrees(repeatsNeeded(effect, groups), { expected, within: 0.006, source: tables });
  });
  test("goes over into the normal distribution's (z + z)² (σ/δ)² where many are needed", () => {
    const wanted = (normalQuantile(0.975) + normalQuantile(0.9)) ** 2;
    agrees(wanted, { expected: 10.5074, within: 6e-5, source: "NIST/SEMATECH e-Handbook, 7.2.2.2, two-sided, α 0.05, β 0.10" });
    agrees((normalQuantile(0.95) + normalQuantile(0.9)) ** 2, { expected: 8.5638, within: 6e-5, source: "NIST/SEMATECH e-Handbook, 7.2.2.2, one-sided" });
    // two wheels: twice the runs of one mean
    agrees(repeatsNeeded(0.02, 2, 0.9) * 0.04 ** 2, { expected: 2 * wanted, relative: 1e-3, source: "the same, d = 0.04 between two wheels" });
  });
  test("made wheels that differ by as much are told apart as often as stated", () => {
    const [random, n] = [seededRandom(31), 6];
    let found = 0;
    for (let trial = 0; trial < 2000; trial++) {
      const of = (mean: number): number[] => Array.from({ length: n }, () => mean + random.normal());
      const [a, b] = [of(0), of(1.8)];
      if (welchTest(a, b).probability < 0.05) found++;
    }
    // Welch's test lets go of a little power against the pooled one, a hundredth at these counts
    agrees(found / 2000, { expected: differencePower(1.8, [n, n], 0.05, 2), within: 0.01 + 3 * Math.sqrt(0.2 / 2000), source: "trials, three standard errors of the count" });
  });
});

test("wrong calls; what a million runs do not do", () => {
  expect(repeatsNeeded(1e-4, 2)).toBeNaN();
  expect(() => repeatsNeeded(0, 2)).toThrow(RangeError);
  expect(() => repeatsNeeded(0.5, 1)).toThrow(RangeError);
  expect(() => repeatsNeeded(0.5, 2, 0.04)).toThrow(RangeError);
  expect(() => differencePower(1, [1], 0.05, 2)).toThrow(RangeError);
  expect(() => noncentralFCdf(-1, 1, 1, 1)).toThrow(RangeError);
  expect(() => noncentralTCdf(1, 0, 1)).toThrow(RangeError);
});
