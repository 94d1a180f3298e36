import { indexAt, timeAt } from "../../core/recording.ts";
import type { Samples, TimeBase } from "../../core/recording.ts";

/**
 * Least-squares slope of a channel over a stretch of time: speed from a position or an angle, without differencing samples.
 *
 * @returns slope [channel unit per s] and its standard error; NaN where fewer than 3 samples are present
 */
export function slopeOver(time: TimeBase, samples: Samples, fromS: number, toS: number): { readonly slope: number; readonly standardError: number } {
  const from = indexAt(time, fromS);
  const to = indexAt(time, toS);
  const middle = (fromS + toS) / 2;
  const level = samples[from] ?? 0;
  let n = 0;
  let st = 0;
  let sy = 0;
  let stt = 0;
  let sty = 0;
  let syy = 0;
  for (let i = from; i < to; i++) {
    // Counted from the first sample, so that squares of a large position do not swallow the digits.
    const y = (samples[i] as number) - level;
    if (Number.isNaN(y)) continue;
    const t = timeAt(time, i) - middle;
    n++;
    st += t;
    sy += y;
    stt += t * t;
    sty += t * y;
    syy += y * y;
  }
  if (n < 3) return { slope: Number.NaN, standardError: Number.NaN };
  const dtt = stt - (st * st) / n;
  const dty = sty - (st * sy) / n;
  const dyy = syy - (sy * sy) / n;
  const slope = dty / dtt;
  const rest = Math.max(0, dyy - slope * dty);
  return { slope, standardError: Math.sqrt(rest / (n - 2) / dtt) };
}

/** Mean of the samples present in a stretch of time, and how many they are. */
export function meanOver(time: TimeBase, samples: Samples, fromS: number, toS: number): { readonly mean: number; readonly count: number } {
  const from = indexAt(time, fromS);
  const to = indexAt(time, toS);
  let sum = 0;
  let count = 0;
  for (let i = from; i < to; i++) {
    const value = samples[i] as number;
    if (Number.isNaN(value)) continue;
    sum += value;
    count++;
  }
  return { mean: sum / count, count };
}

/** How far a channel strays from its least-squares line, averaged over equal parts of a stretch of time; 0 in a part without samples. */
export function strayOver(time: TimeBase, samples: Samples, fromS: number, toS: number, parts: number): number[] {
  const { slope } = slopeOver(time, samples, fromS, toS);
  const middle = (fromS + toS) / 2;
  const from = indexAt(time, fromS);
  const to = indexAt(time, toS);
  const sums = new Array<number>(parts).fill(0);
  const counts = new Array<number>(parts).fill(0);
  const level = samples[from] ?? 0;
  for (let i = from; i < to; i++) {
    const value = (samples[i] as number) - level;
    if (Number.isNaN(value)) continue;
    const t = timeAt(time, i);
    const part = Math.min(parts - 1, Math.floor(((t - fromS) / (toS - fromS)) * parts));
    sums[part] = (sums[part] as number) + value - slope * (t - middle);
    counts[part] = (counts[part] as number) + 1;
  }
  const total = sums.reduce((sum, value) => sum + value, 0) / counts.reduce((sum, count) => sum + count, 0);
  return sums.map((sum, part) => ((counts[part] as number) === 0 ? 0 : sum / (counts[part] as number) - total));
}
