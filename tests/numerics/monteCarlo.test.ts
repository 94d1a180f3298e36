import { expect, it } from "vitest";
import { monteCarlo, toleranceOf } from "../../src/numerics/monteCarlo.ts";
import type { Random } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";

const options = { seed: 1, digits: 2, probability: 0.95, most: 2_000_000 } as const;
/** Rectangular, mean 0 and standard deviation 1. */
const rectangle = (random: Random): number => Math.sqrt(3) * (2 * random.uniform() - 1);

it("a sum of four normal quantities", () => {
  const { standardUncertainty, low, high, settled } = monteCarlo((random) => random.normal() + random.normal() + random.normal() + random.normal(), options);
  const source = "JCGM 101:2008, 9.2.2 (from memory): u = 2.00, ±3.92";
  agrees(standardUncertainty, { expected: 2, within: 0.05, source });
  agrees((high - low) / 2, { expected: 3.92, within: 0.05, source });
  expect(settled).toBe(true);
});

it("a sum of four rectangular quantities", () => {
  const { low, high } = monteCarlo((random) => rectangle(random) + rectangle(random) + rectangle(random) + rectangle(random), options);
  agrees((high - low) / 2, { expected: 3.88, within: 0.05, source: "JCGM 101:2008, 9.2.3 (from memory): ±3.88" });
});

it("one wide rectangle beside three narrow ones", () => {
  const { standardUncertainty, low, high, tolerance } = monteCarlo((random) => rectangle(random) + rectangle(random) + rectangle(random) + 10 * rectangle(random), options);
  const source = "JCGM 101:2008, 9.2.4 (from memory): u = 10.1, ±17.0";
  expect(tolerance).toBe(0.5);
  agrees(standardUncertainty, { expected: 10.15, within: 0.1, source });
  agrees((high - low) / 2, { expected: 17.0, within: 0.2, source });
});

it("the same seed gives the same result, another seed another", () => {
  const once = (seed: number): number => monteCarlo((random) => random.normal(), { ...options, seed, digits: 1 }).mean;
  expect(once(7)).toBe(once(7));
  expect(once(7)).not.toBe(once(8));
});

it("a heavy tail does not settle, and says so", () => {
  const { settled, trials } = monteCarlo((random) => 1 / (random.uniform() + 1e-12), { ...options, most: 50_000 });
  expect(settled).toBe(false);
  expect(trials).toBe(50_000);
});

it("a certain quantity has no width; a trial without a number is refused", () => {
  expect(monteCarlo(() => 3, options)).toMatchObject({ low: 3, high: 3, standardUncertainty: 0, settled: true });
  expect(() => monteCarlo(() => Number.NaN, options)).toThrow(RangeError);
});

it("half a unit in the last figure asked for", () => {
  const source = "JCGM 101:2008, 7.9.2, notes (from memory): 0.35 = 35·10⁻² gives 0.005";
  agrees(toleranceOf(0.35, 2), { expected: 0.005, relative: 1e-12, source });
  agrees(toleranceOf(0.35, 1), { expected: 0.05, relative: 1e-12, source });
});
