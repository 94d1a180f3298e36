import { quantiles } from "./statistics.ts";

/** How the intervals between samples are distributed; lengths in the unit of the times, null where no interval goes forward. */
export interface Intervals {
  /** how many: one fewer than the samples */
  readonly count: number;
  readonly median: number | null;
  /** 1 % and 99 % quantiles */
  readonly low: number | null;
  readonly high: number | null;
  readonly shortest: number | null;
  readonly longest: number | null;
  /** root mean square deviation from the median, gaps left out */
  readonly jitter: number | null;
  /** longer than 1.5 medians: one sample missing makes two */
  readonly gaps: number;
  /** samples that the gaps could have held */
  readonly missing: number;
  /** of no length: the same time twice */
  readonly duplicates: number;
  /** back, and by no counter's modulus */
  readonly backward: number;
  /** back by a counter's modulus, less one interval: the counter began again */
  readonly rollovers: number;
}

const gapMedians = 1.5;
/** What a rollover leaves must be an interval as usual, or a short pause. */
const rolloverMedians = 10;

/**
 * Distribution of the intervals Δᵢ = tᵢ₊₁ − tᵢ between samples.
 *
 *   jitter = √( Σ (Δᵢ − median)² / n ) over the n intervals with 0 < Δᵢ ≤ 1.5 medians
 *
 * Quantiles and extremes are those of the intervals that go forward. Unit of the times. A step back is a rollover when, with one of the
 * moduli added, it becomes an interval of 0 … 10 medians.
 *
 * @param times   in the order of the file; no NaN
 * @param moduli  where a clock or counter may begin again [unit of the times]
 * @returns       quantiles, extremes, jitter and counts
 * @source        definitions; a gap above 1.5 medians is common practice
 * @checked       tests/numerics/intervals.test.ts
 */
export function intervalsOf(times: ArrayLike<number>, moduli: readonly number[] = []): Intervals {
  const count = Math.max(0, times.length - 1);
  const forward = new Float64Array(count);
  const back: number[] = [];
  let n = 0;
  let duplicates = 0;
  for (let i = 0; i < count; i++) {
    const step = (times[i + 1] as number) - (times[i] as number);
    if (step > 0) forward[n++] = step;
    else if (step === 0) duplicates++;
    else back.push(step);
  }
  if (n === 0) return { count, median: null, low: null, high: null, shortest: null, longest: null, jitter: null, gaps: 0, missing: 0, duplicates, backward: back.length, rollovers: 0 };
  const steps = forward.subarray(0, n);
  const [shortest, low, median, high, longest] = quantiles(steps, [0, 0.01, 0.5, 0.99, 1]) as [number, number, number, number, number];
  let squares = 0;
  let usual = 0;
  let missing = 0;
  for (const step of steps) {
    if (step > gapMedians * median) missing += Math.round(step / median) - 1;
    else {
      usual++;
      squares += (step - median) ** 2;
    }
  }
  const rollovers = back.filter((step) => moduli.some((modulus) => step + modulus > 0 && step + modulus <= rolloverMedians * median)).length;
  return {
    count,
    median,
    low,
    high,
    shortest,
    longest,
    jitter: Math.sqrt(squares / usual),
    gaps: n - usual,
    missing,
    duplicates,
    backward: back.length - rollovers,
    rollovers,
  };
}
