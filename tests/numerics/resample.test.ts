import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { interpolateAt, thinForDrawing, thinningBuckets } from "../../src/numerics/resample.ts";

describe("interpolation", () => {
  const times = [0, 1, 3, 4];
  const values = [10, 20, 0, Number.NaN];
  test("between, on and beyond the samples", () => {
    expect([0, 0.25, 1, 2, 3].map((t) => interpolateAt(times, values, t))).toEqual([10, 12.5, 20, 10, 0]);
    expect([-0.1, 3.5, 4, 4.1, Number.NaN].map((t) => interpolateAt(times, values, t))).toEqual(new Array(5).fill(Number.NaN));
    expect(interpolateAt([1], [5], 1)).toBe(5);
    expect(interpolateAt([], [], 1)).toBeNaN();
  });

  test("many at once equals one at a time, in any order", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0.01, max: 2, noNaN: true }), { minLength: 1, maxLength: 60 }), fc.array(fc.double({ min: -1, max: 130, noNaN: true }), { maxLength: 40 }), (steps, wanted) => {
        let t = 0;
        const at = steps.map((step) => (t += step));
        const of = at.map((_, i) => Math.sin(i));
        const slow = wanted.map((time) => {
          const i = at.findLastIndex((candidate) => candidate <= time);
          if (i < 0) return Number.NaN;
          if (at[i] === time) return of[i] as number;
          const share = (time - (at[i] as number)) / ((at[i + 1] as number) - (at[i] as number));
          return (of[i] as number) + share * ((of[i + 1] as number) - (of[i] as number));
        });
        expect(Array.from(interpolateAt(at, of, wanted))).toEqual(slow);
        expect(wanted.map((time) => interpolateAt(at, of, time))).toEqual(slow);
      }),
    );
  });

  test("wrong call", () => {
    expect(() => interpolateAt([1, 2], [1], 1)).toThrow(RangeError);
  });
});

describe("thinning for a drawing", () => {
  const signal = fc.array(fc.oneof({ weight: 6, arbitrary: fc.double({ min: -1e6, max: 1e6, noNaN: true }) }, { weight: 1, arbitrary: fc.constant(Number.NaN) }), { minLength: 1, maxLength: 600 });
  const limit = fc.integer({ min: 8, max: 200 });

  /** Places in `values` of the kept points; times are the places. */
  function kept(values: readonly number[], maximumPoints: number): number[] {
    const thinned = thinForDrawing(values.map((_, i) => i), values, maximumPoints);
    thinned.times.forEach((place, k) => expect(thinned.values[k]).toBe(values[place]));
    return Array.from(thinned.times);
  }
  const extremes = (values: readonly number[]): [number, number] => {
    const present = values.filter((value) => !Number.isNaN(value));
    return [Math.min(...present), Math.max(...present)];
  };

  test("no more points than allowed, in rising order, first and last kept", () => {
    fc.assert(
      fc.property(signal, limit, (values, most) => {
        const places = kept(values, most);
        expect(places.length).toBeLessThanOrEqual(most);
        expect(places.every((place, k) => k === 0 || place > (places[k - 1] as number))).toBe(true);
        expect([places[0], places[places.length - 1]]).toEqual([0, values.length - 1]);
      }),
    );
  });

  test("lowest and highest survive, of the whole and of every bucket", () => {
    fc.assert(
      fc.property(signal, limit, (values, most) => {
        const places = kept(values, most);
        expect(extremes(places.map((place) => values[place] as number))).toEqual(extremes(values));
        const buckets = thinningBuckets(values, most);
        for (let bucket = 0; bucket < buckets; bucket++) {
          const from = Math.floor((bucket * values.length) / buckets);
          const to = Math.floor(((bucket + 1) * values.length) / buckets);
          expect(extremes(places.filter((place) => place >= from && place < to).map((place) => values[place] as number))).toEqual(extremes(values.slice(from, to)));
        }
      }),
    );
  });

  test("gaps stay gaps: no line is drawn across a missing sample", () => {
    fc.assert(
      fc.property(signal, limit, (values, most) => {
        const places = kept(values, most);
        for (let k = 1; k < places.length; k++) {
          const [before, after] = [places[k - 1] as number, places[k] as number];
          const drawn = !Number.isNaN(values[before]) && !Number.isNaN(values[after]);
          if (drawn) expect(values.slice(before, after + 1).some(Number.isNaN)).toBe(false);
        }
      }),
    );
  });

  test("a short signal comes back whole; a single spike in a million samples is kept", () => {
    expect(thinForDrawing([0, 1, 2], [5, Number.NaN, 6], 8)).toEqual({ times: Float64Array.from([0, 1, 2]), values: Float64Array.from([5, Number.NaN, 6]) });
    const long = new Float64Array(1_000_000);
    long[765_432] = 9;
    const thinned = thinForDrawing(long.map((_, i) => i), long, 1000);
    expect(thinned.times[thinned.values.indexOf(9)]).toBe(765_432);
  });

  test("wrong calls", () => {
    expect(() => thinForDrawing([1], [1, 2], 100)).toThrow(RangeError);
    expect(() => thinForDrawing([1], [1], 7)).toThrow(RangeError);
  });
});
