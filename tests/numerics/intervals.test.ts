import { describe, expect, it } from "vitest";
import { intervalsOf } from "../../src/numerics/intervals.ts";
import { agrees } from "../helpers/agrees.ts";

/** Times whose intervals are the given ones. */
const timesOf = (...steps: readonly number[]): number[] => steps.reduce<number[]>((times, step) => [...times, (times.at(-1) as number) + step], [0]);

describe("intervals between samples", () => {
  it("even sampling has one interval and no jitter", () => {
    expect(intervalsOf(timesOf(2, 2, 2, 2))).toEqual({ count: 4, median: 2, low: 2, high: 2, shortest: 2, longest: 2, jitter: 0, gaps: 0, missing: 0, duplicates: 0, backward: 0, rollovers: 0 });
  });

  it("quantiles, extremes and jitter by hand", () => {
    // 101 intervals of 10 … 11: the k-th hundredth stands at 10 + k/100.
    const steps = Array.from({ length: 101 }, (_, k) => 10 + ((k * 37) % 101) / 100);
    const found = intervalsOf(timesOf(...steps));
    const source = "numpy.quantile's linear rule, by hand: the k-th of 101 sorted values is the k % quantile";
    agrees(found.median ?? NaN, { expected: 10.5, within: 1e-9, source });
    agrees(found.low ?? NaN, { expected: 10.01, within: 1e-9, source });
    agrees(found.high ?? NaN, { expected: 10.99, within: 1e-9, source });
    agrees(found.jitter ?? NaN, { expected: Math.sqrt((2 * (50 * 51 * 101)) / 6 / 101) / 100, within: 1e-9, source: "root mean square of −0.50 … 0.50: √(2 Σk² / 101) / 100, Σk² = n(n+1)(2n+1)/6" });
    expect(found).toMatchObject({ shortest: expect.closeTo(10, 9) as number, longest: expect.closeTo(11, 9) as number, gaps: 0 });
  });

  it("counts gaps with the samples they could have held, and leaves them out of the jitter", () => {
    expect(intervalsOf(timesOf(1, 1, 1, 4, 1, 1, 2, 1))).toMatchObject({ median: 1, longest: 4, gaps: 2, missing: 3 + 1, jitter: 0 });
    expect(intervalsOf(timesOf(1, 1, 1, 1.4, 1, 1))).toMatchObject({ gaps: 0, longest: expect.closeTo(1.4, 9) as number });
  });

  it("tells doubled times, steps back and a counter that begins again apart", () => {
    const found = intervalsOf(timesOf(1, 1, 0, 1, -3, 1, 1, -65535, 1, 1), [65536]);
    expect(found).toMatchObject({ count: 10, duplicates: 1, backward: 1, rollovers: 1, median: 1 });
    // Half a modulus back is no rollover, nor is one when no modulus is known.
    expect(intervalsOf(timesOf(1, 1, -32768, 1), [65536])).toMatchObject({ backward: 1, rollovers: 0 });
    expect(intervalsOf(timesOf(1, 1, -65535, 1))).toMatchObject({ backward: 1, rollovers: 0 });
  });

  it("empty, single, standing and reversed times", () => {
    expect(intervalsOf([])).toMatchObject({ count: 0, median: null });
    expect(intervalsOf([5])).toMatchObject({ count: 0, median: null, jitter: null });
    expect(intervalsOf([5, 5, 5])).toMatchObject({ count: 2, median: null, duplicates: 2 });
    expect(intervalsOf([3, 2, 1])).toMatchObject({ count: 2, median: null, backward: 2 });
  });
});
