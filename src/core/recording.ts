import type { Step, Source } from "./provenance.ts";
import type { Unit } from "./units.ts";
import { UsageError } from "./errors.ts";

/** Numbers in order; a Float64Array fits. NaN means "missing". */
export interface Samples extends Iterable<number> {
  readonly length: number;
  readonly [index: number]: number;
  subarray(from?: number, to?: number): Samples;
}

/** Standard uncertainties of one channel, in the channel's unit. */
export interface Doubt {
  /** per sample; averages away */
  readonly noise: number;
  /** common to the run; does not average away within it */
  readonly offset: number;
  /** standard uncertainty from a drift of the offset during the run, of which only the bounds are known (rectangular); absent = none */
  readonly drift?: number;
  /** relative; common to all runs on one calibration */
  readonly relativeGain: number;
  /** names the calibration, so that what is shared can be recognised */
  readonly calibration: string;
}

export interface Channel<U extends Unit = Unit> {
  readonly name: string;
  readonly unit: U;
  readonly samples: Samples;
  /** null = nobody has stated it */
  readonly doubt: Doubt | null;
}

export type TimeBase =
  | { readonly kind: "uniform"; readonly startS: number; readonly rateHz: number; readonly count: number }
  | { readonly kind: "stamped"; readonly timesS: Samples };

/** One time base and what was recorded on it. Several loggers are several Recordings. */
export interface Recording {
  readonly time: TimeBase;
  /** ISO 8601 with zone, or null = honestly unknown */
  readonly startedAt: string | null;
  readonly channels: readonly Channel[];
  readonly sources: readonly Source[];
  readonly history: readonly Step[];
}

/** The channel of that name, its unit checked. @throws UsageError naming what is there. */
export function channel<U extends Unit>(recording: Recording, name: string, unit: U): Channel<U> {
  const found = recording.channels.find((candidate) => candidate.name === name);
  if (found === undefined) {
    const there = recording.channels.map((candidate) => candidate.name).join(", ");
    throw new UsageError(`expected a channel "${name}", found ${there === "" ? "no channels" : there}`);
  }
  if (found.unit !== unit) throw new UsageError(`channel "${name}": expected the unit "${unit}", found "${found.unit}"`);
  return found as Channel<U>;
}

export function hasChannel(recording: Recording, name: string): boolean {
  return recording.channels.some((candidate) => candidate.name === name);
}

export function sampleCount(time: TimeBase): number {
  return time.kind === "uniform" ? time.count : time.timesS.length;
}

/** Time of sample `index` [s]. */
export function timeAt(time: TimeBase, index: number): number {
  return time.kind === "uniform" ? time.startS + index / time.rateHz : (time.timesS[index] ?? Number.NaN);
}

/** First index whose time is ≥ `timeS`; the count if none is. */
export function indexAt(time: TimeBase, timeS: number): number {
  const count = sampleCount(time);
  if (time.kind === "uniform") return Math.min(count, Math.max(0, Math.ceil((timeS - time.startS) * time.rateHz - 1e-9)));
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((time.timesS[middle] as number) < timeS) low = middle + 1;
    else high = middle;
  }
  return low;
}
