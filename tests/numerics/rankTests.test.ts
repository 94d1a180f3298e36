import { expect, it } from "vitest";
import { seededRandom } from "../../src/numerics/random.ts";
import { rankSumTest, signedRankTest } from "../../src/numerics/rankTests.ts";
import { agrees } from "../helpers/agrees.ts";
import { scipy, scipySource } from "./scipyReference.ts";

const random = seededRandom(5);
const draw = (count: number, shift: number): number[] => Array.from({ length: count }, () => shift + random.normal());
const rounded = (values: readonly number[]): number[] => values.map((value) => Math.round(2 * value) / 2);

it("signed ranks, counted out and approximated, against a library", () => {
  const pairs = [[draw(9, 0.8), draw(9, 0)], [draw(25, 0.3), draw(25, 0)], [draw(60, 0.2), draw(60, 0)], [rounded(draw(20, 0.5)), rounded(draw(20, 0))]] as const;
  const expected = scipy(pairs.map(([x, y], i) => ["wilcoxon", [x, y, i < 2]])) as [number, number][];
  pairs.forEach(([x, y], i) => {
    const { statistic, probability, exact } = signedRankTest(x, y);
    const [w, p] = expected[i] as [number, number];
    expect(exact).toBe(i < 2);
    agrees(statistic, { expected: w, within: 1e-9, source: scipySource });
    agrees(probability, { expected: p, relative: 1e-9, source: scipySource });
  });
});

it("rank sums, counted out and approximated, against a library", () => {
  const samples = [[draw(6, 1), draw(8, 0)], [draw(20, 0.5), draw(25, 0)], [draw(40, 0.3), draw(35, 0)], [rounded(draw(12, 0.5)), rounded(draw(15, 0))]] as const;
  const expected = scipy(samples.map(([x, y], i) => ["mannwhitneyu", [x, y, i < 2]])) as [number, number][];
  samples.forEach(([x, y], i) => {
    const { statistic, probability, exact } = rankSumTest(x, y);
    const [u, p] = expected[i] as [number, number];
    expect(exact).toBe(i < 2);
    agrees(statistic, { expected: u, within: 1e-9, source: scipySource });
    agrees(probability, { expected: p, relative: 1e-9, source: scipySource });
  });
});

it("by hand: three pairs all of one sign", () => {
  expect(signedRankTest([2, 4, 6], [1, 2, 3])).toEqual({ statistic: 6, probability: 0.25, exact: true });
  expect(rankSumTest([1, 2], [3, 4])).toEqual({ statistic: 0, probability: 2 / 6, exact: true });
});

it("pairs that all agree say nothing; misuse is refused", () => {
  expect(signedRankTest([1, 2], [1, 2]).probability).toBeNaN();
  expect(() => signedRankTest([1], [1, 2])).toThrow(RangeError);
  expect(() => rankSumTest([], [1])).toThrow(RangeError);
});
