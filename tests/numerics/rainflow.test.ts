import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rainflowCounter, rainflowCycles } from "../../src/numerics/rainflow.ts";
import type { LoadCycleCount } from "../../src/numerics/rainflow.ts";

/** ASTM E1049-85, figure 6: the load history A … I, from memory; the counts are those of its table, from memory too. */
const history = [-2, 1, -3, 5, -1, 3, -4, 4, -2];

function tally(cycles: readonly LoadCycleCount[]): Record<number, number> {
  const sums: Record<number, number> = {};
  for (const { range, count } of cycles) sums[range] = (sums[range] ?? 0) + count;
  return sums;
}

describe("worked example of ASTM E1049 (from memory)", () => {
  test("counts by range", () => {
    expect(tally(rainflowCycles(history, 0))).toEqual({ 3: 0.5, 4: 1.5, 6: 0.5, 8: 1, 9: 0.5 });
  });

  test("the one whole cycle runs from E to F: range 4 about 1", () => {
    expect(rainflowCycles(history, 0).filter(({ count }) => count === 1)).toEqual([{ range: 4, mean: 1, count: 1 }]);
  });

  test("samples between the reversals and a pause at one of them change nothing", () => {
    const fine = history.flatMap((value, i) => (i === 0 ? [value, value] : [value - 0.5 * (value - (history[i - 1] as number)), value, value]));
    expect(tally(rainflowCycles(fine, 0))).toEqual(tally(rainflowCycles(history, 0)));
  });

  test("piece by piece as in one", () => {
    const cycles: LoadCycleCount[] = [];
    const counter = rainflowCounter(0, (cycle) => void cycles.push(cycle));
    for (const value of history) counter.push([value]);
    counter.finish();
    expect(cycles).toEqual(rainflowCycles(history, 0));
  });
});

describe("facts", () => {
  test("nothing, one value, a constant: no cycle", () => {
    for (const samples of [[], [3], [3, 3, 3], [Number.NaN]]) expect(rainflowCycles(samples, 0)).toEqual([]);
  });

  test("a rise is half a cycle", () => expect(rainflowCycles([0, 1, 4], 0)).toEqual([{ range: 4, mean: 2, count: 0.5 }]));

  test("what is not larger than the threshold is no reversal, missing samples are passed over", () => {
    expect(rainflowCycles([0, 10, 9.5, 10.2, Number.NaN, 0], 1)).toEqual([{ range: 10.2, mean: 5.1, count: 0.5 }, { range: 10.2, mean: 5.1, count: 0.5 }]);
  });

  test("counts add up to half the ranges between reversals, and the whole span is among them", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 2, maxLength: 60 }), (samples) => {
        const turns = samples.filter((value, i) => i === 0 || value !== samples[i - 1]).filter((value, i, kept) => i === 0 || i === kept.length - 1 || (value - (kept[i - 1] as number)) * ((kept[i + 1] as number) - value) < 0);
        const cycles = rainflowCycles(samples, 0);
        expect(cycles.reduce((sum, { count }) => sum + count, 0)).toBeCloseTo((turns.length - 1) / 2, 9);
        if (turns.length > 1) expect(Math.max(...cycles.map(({ range }) => range))).toBe(Math.max(...samples) - Math.min(...samples));
      }),
    );
  });

  test("wrong call", () => expect(() => rainflowCycles([1], -1)).toThrow(RangeError));
});
