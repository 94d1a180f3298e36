import { describe, expect, test } from "vitest";
import { lineFit } from "../../src/numerics/lineFit.ts";
import { medianRank, productLimit } from "../../src/numerics/survival.ts";
import { agrees } from "../helpers/agrees.ts";
import { handbookLives } from "./handbookLives.ts";
import { scipyNumbers, scipySource } from "./scipyReference.ts";

describe("productLimit", () => {
  test("one failure after the other out of twenty, the rest censored later", () => {
    expect(productLimit(handbookLives).map(({ survival }) => Number(survival.toFixed(12)))).toEqual([0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6, 0.55, 0.5]);
  });

  test("by hand: a unit taken off between failures leaves fewer at risk", () => {
    const lives = [{ value: 1, failed: true }, { value: 2, failed: false }, { value: 3, failed: true }, { value: 3, failed: false }];
    expect(productLimit(lives)).toEqual([{ at: 1, survival: 0.75 }, { at: 3, survival: 0.375 }]);
  });

  test("nothing failed, nothing known", () => expect(productLimit([{ value: 9, failed: false }])).toEqual([]));
});

describe("medianRank", () => {
  test("agrees with the beta distribution's median", () => {
    const cases = [[1, 1], [1, 5], [3, 5], [5, 5], [1, 10], [7, 20], [400, 1000]] as const;
    const answers = scipyNumbers(cases.map(([i, n]) => ["beta_median", [i, n - i + 1]]));
    cases.forEach(([i, n], k) => agrees(medianRank(i, n), { expected: answers[k] as number, relative: 1e-9, source: scipySource }));
  });

  test("printed medians, and the line through them on Weibull paper", () => {
    const printed = "medians of Beta(i, n − i + 1) as tabulated for n = 5 and n = 10 in reliability handbooks, recomputed";
    [0.12944944, 0.31381017, 0.5, 0.68618983, 0.87055056].forEach((expected, i) => agrees(medianRank(i + 1, 5), { expected, within: 6e-9, source: printed }));
    agrees(medianRank(1, 10), { expected: 0.06696701, within: 6e-9, source: printed });
    const failed = handbookLives.filter((life) => life.failed);
    const { slope, intercept } = lineFit(failed.map(({ value }) => Math.log(value)), failed.map((_, i) => Math.log(-Math.log(1 - medianRank(i + 1, 20)))));
    const source = "NIST/SEMATECH e-Handbook, 8.4.1.3, data; regression of ln(−ln(1 − F)) on ln t over exact median ranks, worked by an independent program";
    agrees(slope, { expected: 1.461591, within: 6e-7, source });
    agrees(Math.exp(-intercept / slope), { expected: 667.3126, within: 6e-5, source });
    // the convention decides: Benard's ranks, and time on rank instead of rank on time
    const logs = failed.map(({ value }) => Math.log(value));
    const ranks = failed.map((_, i) => Math.log(-Math.log(1 - (i + 0.7) / 20.4)));
    const [rankOnTime, timeOnRank] = [lineFit(logs, ranks), lineFit(ranks, logs)];
    const benard = "the same data with (i − 0.3)/(n + 0.4), worked by an independent program";
    agrees(rankOnTime.slope, { expected: 1.457519, within: 6e-7, source: benard });
    agrees(Math.exp(-rankOnTime.intercept / rankOnTime.slope), { expected: 667.3364, within: 6e-5, source: benard });
    agrees(1 / timeOnRank.slope, { expected: 1.625963, within: 6e-7, source: benard });
    agrees(Math.exp(timeOnRank.intercept), { expected: 601.9599, within: 6e-5, source: benard });
  });

  test("near Benard's (i − 0.3)/(n + 0.4)", () => agrees(medianRank(2, 5), { expected: 1.7 / 5.4, within: 2e-3, source: "Benard's approximation, from memory; good to about 0.001" }));

  test("wrong call", () => {
    for (const [i, n] of [[0, 5], [6, 5], [1.5, 5]] as const) expect(() => medianRank(i, n)).toThrow(RangeError);
  });
});
