import type { Doubt } from "../../core/recording.ts";
import type { Unit } from "../../core/units.ts";
import { sampleCount, timeAt } from "../../core/recording.ts";
import { find } from "../preparedRun.ts";
import type { PreparedRun } from "../preparedRun.ts";

/** Two channels, sample by sample, at the first one's times. */
export interface PairedSamples {
  readonly timesS: readonly number[];
  readonly first: readonly number[];
  readonly second: readonly number[];
  readonly firstDoubt: Doubt | null;
  readonly secondDoubt: Doubt | null;
}

/**
 * Two channels of a run as pairs, for quantities that live in the plane of both (force over displacement).
 *
 * On one logger the samples pair as they stand. On two loggers the second channel, which should be the slower
 * one (a displacement), is read by a straight line between its neighbours at the first one's times, and only
 * where both recorded. Pairs with a missing value are left out.
 *
 * @param run      the prepared run
 * @param first    name and unit of the channel that keeps its samples
 * @param second   name and unit of the other
 * @returns        the pairs in order of time; null when either channel was not recorded
 * @throws         UsageError when a channel has another unit
 * @source         common practice
 * @checked        tests/processing/measures/pairedSamples.test.ts
 */
export function pairedSamples(run: PreparedRun, first: { readonly name: string; readonly unit: Unit }, second: { readonly name: string; readonly unit: Unit }): PairedSamples | null {
  const a = find(run, first.name, first.unit);
  const b = find(run, second.name, second.unit);
  if (a === null || b === null) return null;
  const timesS: number[] = [];
  const firstValues: number[] = [];
  const secondValues: number[] = [];
  const sameClock = a.time === b.time;
  const count = sampleCount(a.time);
  const otherCount = sampleCount(b.time);
  let low = 0;
  for (let i = 0; i < count; i++) {
    const timeS = timeAt(a.time, i);
    const x = a.channel.samples[i] as number;
    let y = Number.NaN;
    if (sameClock) y = b.channel.samples[i] as number;
    else {
      while (low + 2 < otherCount && timeAt(b.time, low + 1) <= timeS) low++;
      const startS = timeAt(b.time, low);
      const endS = timeAt(b.time, low + 1);
      if (timeS >= startS && timeS <= endS) {
        const share = (timeS - startS) / (endS - startS);
        y = (b.channel.samples[low] as number) * (1 - share) + (b.channel.samples[low + 1] as number) * share;
      }
    }
    if (!Number.isFinite(x) || !Number.isFinite(y)) continue;
    timesS.push(timeS);
    firstValues.push(x);
    secondValues.push(y);
  }
  return { timesS, first: firstValues, second: secondValues, firstDoubt: a.channel.doubt, secondDoubt: b.channel.doubt };
}
