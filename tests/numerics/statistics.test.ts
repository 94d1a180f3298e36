import { describe, expect, test } from "vitest";
import { effectiveSampleSize, lag1Autocorrelation, mean, median, quantile, standardDeviation } from "../../src/numerics/statistics.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";
import { lew } from "./nist/lew.ts";
import { lottery } from "./nist/lottery.ts";
import { mavro } from "./nist/mavro.ts";
import { michelso } from "./nist/michelso.ts";
import { scipyNumbers, scipySource } from "./scipyReference.ts";
import type { SampleReference } from "./nist/sampleReference.ts";

/** The accuracy sets are an offset, then offset ∓ step in turn. */
function accuracySet(name: string, offset: string, low: string, high: string, pairs: number, certified: { mean: number; sd: number; lag1: number }): SampleReference {
  const samples = [Number(offset)];
  for (let i = 0; i < pairs; i++) samples.push(Number(low), Number(high));
  return { source: `NIST StRD, univariate summary statistics, ${name}`, mean: certified.mean, standardDeviation: certified.sd, lag1: certified.lag1, samples };
}

const numAcc1: SampleReference = { source: "NIST StRD, univariate summary statistics, NumAcc1", mean: 10000002, standardDeviation: 1, lag1: -0.5, samples: [10000001, 10000003, 10000002] };
const numAcc2 = accuracySet("NumAcc2", "1.2", "1.1", "1.3", 500, { mean: 1.2, sd: 0.1, lag1: -0.999 });
const numAcc3 = accuracySet("NumAcc3", "1000000.2", "1000000.1", "1000000.3", 500, { mean: 1000000.2, sd: 0.1, lag1: -0.999 });
const numAcc4 = accuracySet("NumAcc4", "10000000.2", "10000000.1", "10000000.3", 500, { mean: 10000000.2, sd: 0.1, lag1: -0.999 });

describe("certified summary statistics", () => {
  test.each([lew, lottery, mavro, michelso, numAcc1, numAcc2, numAcc3, numAcc4])("$source", (set) => {
    // The last sets cannot be held in binary: 10000000.1 is off by up to 1e-9, a 1e-8 part of the spread.
    const limit = set === numAcc4 || set === numAcc3 ? 1e-8 : 1e-12;
    agrees(mean(set.samples), { expected: set.mean, relative: 1e-14, source: set.source });
    agrees(standardDeviation(set.samples), { expected: set.standardDeviation, relative: limit, source: set.source });
    agrees(lag1Autocorrelation(set.samples), { expected: set.lag1, relative: Math.max(limit, 1e-11), source: set.source });
    agrees(mean(Float64Array.from(set.samples)), { expected: set.mean, relative: 1e-14, source: set.source });
  });
});

describe("effective sample size", () => {
  const source = "variance of the mean of an AR(1) process, as in Zięba, Metrol. Meas. Syst. 17 (2010) 3 (from memory)";
  test.each([
    [100, 0.5, 33.783784],
    [100, 0.9, 5.813937],
    [1000, 0.9, 53.134963],
    [50, -0.3, 91.64859],
    [20, 0.7, 4.09039],
  ])("n = %d, ρ = %d", (count, lag1, expected) => {
    agrees(effectiveSampleSize(count, lag1), { expected, within: 1e-6, source });
  });

  test.each([
    [100, 0.5, 0.980202],
    [100, 0.9, 0.836363],
    [1000, 0.9, 0.982162],
    [50, -0.3, 1.009274],
    [20, 0.7, 0.795289],
  ])("n = %d, ρ = %d: by what share the squared standard deviation of such a record is off", (count, lag1, expected) => {
    agrees((count - count / effectiveSampleSize(count, lag1)) / (count - 1), { expected, within: 6e-7, source: "E[s²]/σ² = (n − n/n_eff)/(n − 1) of an AR(1) record, encyclopedia article on unbiased estimation of a standard deviation; worked by an independent program" });
  });

  test("runs smoothly into 1 as neighbours become copies", () => {
    expect(effectiveSampleSize(1000, 1)).toBe(1);
    agrees(effectiveSampleSize(1000, 1 - 1e-12), { expected: 1, within: 1e-9, source: "limit ρ → 1 of the formula" });
    // either side of the change between closed form and sum
    agrees(effectiveSampleSize(1000, 0.99001), { expected: effectiveSampleSize(1000, 0.98999), relative: 3e-3, source: "continuity of the formula" });
  });

  test("no correlation leaves the count, a constant record leaves no answer", () => {
    expect(effectiveSampleSize(40, 0)).toBe(40);
    expect(effectiveSampleSize(40, Number.NaN)).toBeNaN();
    expect(() => effectiveSampleSize(0, 0)).toThrow(RangeError);
    expect(() => effectiveSampleSize(10, 1.2)).toThrow(RangeError);
  });

  test("holds the spread of means of simulated records", () => {
    const random = seededRandom(11);
    const rho = 0.8;
    const means = Array.from({ length: 4000 }, () => {
      let state = random.normal();
      return mean(Array.from({ length: 60 }, () => (state = rho * state + Math.sqrt(1 - rho * rho) * random.normal())));
    });
    // 4000 records know their sd to 1/√8000 = 1.1 %; three times that
    agrees(standardDeviation(means), { expected: 1 / Math.sqrt(effectiveSampleSize(60, rho)), relative: 0.034, source: "simulated AR(1) records" });
  });
});

describe("facts", () => {
  test("median and quantile", () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 2, 3])).toBe(2.5);
    expect(median([10, 9])).toBe(9.5); // numeric order, not alphabetic
    expect(quantile([5], 0.3)).toBe(5);
    expect(quantile([1, Number.NaN, 3], 0.5)).toBeNaN();
    const samples = Array.from({ length: 23 }, (_, i) => Math.sin(7 * i) * 10);
    const shares = [0, 0.05, 0.25, 0.61, 0.975, 1];
    scipyNumbers(shares.map((share) => ["quantile", [samples, share]])).forEach((expected, i) => agrees(quantile(samples, shares[i] as number), { expected, within: 1e-13, source: scipySource }));
  });

  test("does not change its input", () => {
    const samples = [3, 1, 2];
    median(samples);
    expect(samples).toEqual([3, 1, 2]);
  });

  test("empty is a wrong call; one, constant and missing have honest answers", () => {
    for (const of of [mean, median, standardDeviation, lag1Autocorrelation]) expect(() => of([])).toThrow(RangeError);
    expect(() => quantile([1], 1.1)).toThrow(RangeError);
    expect(standardDeviation([4])).toBeNaN();
    expect(standardDeviation([4, 4, 4])).toBe(0);
    expect(lag1Autocorrelation([4, 4, 4])).toBeNaN();
    expect(mean([1, Number.NaN])).toBeNaN();
    expect(standardDeviation([1, 2, Number.NaN])).toBeNaN();
  });

  test("an offset of 1e15, where the mean itself is rounded, leaves the spread", () => {
    agrees(standardDeviation([1e15, 1e15, 1e15 + 1]), { expected: Math.sqrt(1 / 3), relative: 1e-12, source: "spread of 0, 0, 1 by hand" });
  });

  test("compensated sum", () => {
    expect(mean([1e100, 1, -1e100, 1])).toBe(0.5);
  });
});
