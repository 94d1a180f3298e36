import { describe, expect, it, test } from "vitest";
import { oneWayAnova, tukeyDifferences } from "../../src/numerics/anova.ts";
import type { PairDifference } from "../../src/numerics/anova.ts";
import { mean, standardDeviation } from "../../src/numerics/statistics.ts";
import { agrees } from "../helpers/agrees.ts";
import type { AnovaReference } from "./nist/anovaReference.ts";
import { atmWtAg } from "./nist/atmWtAg.ts";
import { siRstv } from "./nist/siRstv.ts";
import { smLs01 } from "./nist/smLs01.ts";
import { smLs04 } from "./nist/smLs04.ts";
import { smLs07 } from "./nist/smLs07.ts";

describe("certified analyses of variance", () => {
  // Constant leading digits take digits off every double: 4 of them in SmLs04, 7 in AtmWtAg; of SmLs07 a double holds steps of 1.2e-4 only.
  const sets: readonly (readonly [AnovaReference, number])[] = [[siRstv, 1e-9], [atmWtAg, 1e-6], [smLs01, 1e-12], [smLs04, 1e-8], [smLs07, 5e-3]];
  test.each(sets)("$source", (set, relative) => {
    const { between, within, f, rSquared } = oneWayAnova(set.groups);
    const { source } = set;
    agrees(between.sumOfSquares, { expected: set.between, relative, source });
    agrees(within.sumOfSquares, { expected: set.within, relative, source });
    agrees(f, { expected: set.f, relative, source });
    agrees(rSquared, { expected: set.rSquared, relative, source });
    agrees(Math.sqrt(within.meanSquare), { expected: set.residualSd, relative, source });
  });
});

const handbook = [[6.9, 5.4, 5.8, 4.6, 4.0], [8.3, 6.8, 7.8, 9.2, 6.5], [8.0, 10.5, 8.1, 6.9, 9.3]];

it("three machines of the handbook", () => {
  const { f, between, within, probability } = oneWayAnova(handbook);
  const source = "NIST/SEMATECH e-Handbook, 7.4.2.3 and 7.4.3.3 (data from memory)";
  agrees(f, { expected: 9.59, within: 0.005, source });
  agrees(between.meanSquare, { expected: 13.949, within: 5e-4, source });
  agrees(within.meanSquare, { expected: 1.454, within: 5e-4, source });
  agrees(probability, { expected: 0.00325, within: 5e-6, source });
});

// ASTM E691, glucose in serum: eight laboratories, three results each; s_r, s of the laboratories' means, s_R (not below s_r)
const glucose = [
  ["A", [[41.03, 41.45, 41.37], [41.17, 42.0, 41.15], [41.01, 40.68, 42.66], [39.37, 42.37, 42.63], [41.88, 41.19, 41.32], [43.28, 40.5, 42.28], [41.08, 41.27, 39.02], [43.36, 42.65, 41.72]], 1.0632, 0.6061, 1.0632],
  ["B", [[78.28, 78.18, 78.49], [77.78, 80.38, 79.54], [79.18, 79.72, 80.81], [84.08, 78.8, 80.01], [78.16, 79.58, 78.33], [78.66, 79.27, 81.75], [79.75, 81.45, 77.35], [80.44, 80.8, 79.8]], 1.4961, 0.8627, 1.4961],
  ["C", [[132.66, 133.83, 133.1], [132.92, 136.9, 136.4], [132.61, 135.8, 135.36], [138.5, 148.3, 135.69], [131.9, 134.14, 133.76], [137.21, 135.14, 137.5], [130.97, 131.59, 134.92], [135.46, 135.14, 133.53]], 2.7509, 2.6567, 3.4789],
  ["D", [[193.71, 193.59, 193.65], [190.88, 200.14, 194.3], [192.71, 193.28, 190.28], [195.85, 196.36, 199.43], [192.59, 191.44, 195.12], [195.34, 198.26, 198.13], [194.66, 191.99, 187.13], [197.56, 195.99, 200.82]], 2.6251, 2.595, 3.3657],
  ["E", [[292.78, 294.09, 292.89], [292.27, 309.4, 295.08], [295.53, 290.14, 292.34], [295.19, 295.44, 296.83], [293.93, 292.48, 294.28], [297.74, 296.8, 290.33], [287.29, 293.76, 289.36], [298.46, 295.28, 296.12]], 3.935, 2.6931, 4.1923],
] as const;

it.each(glucose)("scatter within and between laboratories, material %s", (material, laboratories, repeatability, means, reproducibility) => {
  const { between, within } = oneWayAnova(laboratories);
  const source = `ASTM E691, table of the glucose study, material ${material}, as R package ILS holds it`;
  agrees(Math.sqrt(within.meanSquare), { expected: repeatability, within: 5e-5, source });
  agrees(Math.sqrt(between.meanSquare / 3), { expected: means, within: 5e-5, source });
  agrees(Math.sqrt(Math.max(within.meanSquare, (between.meanSquare + 2 * within.meanSquare) / 3)), { expected: reproducibility, within: 5e-5, source });
});

it("how far single laboratories lie off, and scatter, against the others", () => {
  const source = "ASTM E691, h of material A and k of material E in the glucose study, as R package ILS holds the data";
  const off = glucose[0][1].map((results) => mean(results));
  const expectedH = [-0.39, -0.13, -0.11, -0.1, -0.09, 0.83, -1.75, 1.75];
  off.forEach((value, i) => agrees((value - mean(off)) / standardDeviation(off), { expected: expectedH[i] as number, within: 0.006, source }));
  const expectedK = [0.18, 2.33, 0.69, 0.22, 0.24, 1.03, 0.84, 0.42];
  const pooled = Math.sqrt(oneWayAnova(glucose[4][1]).within.meanSquare);
  glucose[4][1].forEach((results, i) => agrees(standardDeviation(results) / pooled, { expected: expectedK[i] as number, within: 0.006, source }));
});

describe("all pairs at once", () => {
  const pair = (pairs: readonly PairDifference[], first: number, second: number): PairDifference => pairs.find((one) => one.first === first && one.second === second) as PairDifference;

  it("as another package prints them", () => {
    const pairs = tukeyDifferences([[24.5, 23.5, 26.4, 27.1, 29.9], [28.4, 34.2, 29.5, 32.2, 30.1], [26.1, 28.3, 24.3, 26.2, 27.8]], 0.95);
    const source = "SAS PROC ANOVA, as quoted in SciPy's tests of tukey_hsd";
    agrees(pair(pairs, 0, 1).low, { expected: 0.9508830568, within: 1e-4, source });
    agrees(pair(pairs, 0, 1).high, { expected: 8.249116943, within: 1e-4, source });
    agrees(pair(pairs, 0, 2).low, { expected: -3.389116943, within: 1e-4, source });
    agrees(pair(pairs, 1, 2).difference, { expected: -4.34, within: 1e-9, source });
    agrees(pair(pairs, 0, 1).probability, { expected: 0.014448, within: 1e-4, source });
    agrees(pair(pairs, 1, 2).probability, { expected: 0.020331, within: 1e-4, source });
  });

  it("for groups of unequal sizes", () => {
    const pairs = tukeyDifferences([[24.5, 23.5, 26.4], [28.4, 34.2, 29.5, 32.2, 30.1, 28.4, 34.2, 29.5, 32.2, 30.1], [26.1, 28.3, 24.3, 26.2, 27.8]], 0.95);
    const source = "SAS PROC ANOVA, as quoted in SciPy's tests of tukey_hsd, unequal sizes";
    agrees(pair(pairs, 0, 1).low, { expected: 2.740784879, within: 1e-5, source });
    agrees(pair(pairs, 0, 1).high, { expected: 9.419215121, within: 1e-5, source });
    agrees(pair(pairs, 0, 2).low, { expected: -1.964526566, within: 1e-5, source });
  });

  it("which of four machines differ", () => {
    const pairs = tukeyDifferences([...handbook, [5.8, 3.8, 6.1, 5.6, 6.2]], 0.95);
    const source = "NIST/SEMATECH e-Handbook, 7.4.7.1: only 1–4 and 2–3 do not differ";
    const alike = pairs.filter(({ low, high }) => low < 0 && high > 0).map(({ first, second }) => `${first + 1}-${second + 1}`);
    expect(alike, source).toEqual(["1-4", "2-3"]);
    agrees(pair(pairs, 0, 1).low, { expected: 0.29, within: 0.005, source });
    agrees(pair(pairs, 0, 1).high, { expected: 4.47, within: 0.005, source });
    const worked = "the same data by studentized range and F of an independent program";
    const { f, probability, within } = oneWayAnova([...handbook, [5.8, 3.8, 6.1, 5.6, 6.2]]);
    agrees(within.meanSquare, { expected: 1.33075, relative: 1e-9, source: worked });
    agrees(f, { expected: 9.72384, within: 6e-6, source: worked });
    agrees(probability, { expected: 6.8445e-4, within: 6e-9, source: worked });
    for (const [first, second, chance] of [[0, 1, 0.02279], [0, 2, 0.00221], [0, 3, 0.99612], [1, 2, 0.66446], [1, 3, 0.03515], [2, 3, 0.00345]] as const) agrees(pair(pairs, first, second).probability, { expected: chance, within: 6e-6, source: worked });
  });
});

it("refuses what cannot be compared; nothing scatters: no F", () => {
  expect(() => oneWayAnova([[1, 2, 3]])).toThrow(RangeError);
  expect(() => oneWayAnova([[1], [2]])).toThrow(RangeError);
  expect(() => oneWayAnova([[1, 2], []])).toThrow(RangeError);
  expect(oneWayAnova([[1, 1], [1, 1]]).f).toBeNaN();
});
