import type { Intervals } from "../numerics/intervals.ts";

/** How evenly a log was sampled, in seconds of its own clock. */
export interface LogSampling {
  readonly logger: string;
  readonly file: string;
  /** samples per second as rig.yaml states them, where the file has no time column */
  readonly statedRateHz: number | null;
  /** null when the file has no time column */
  readonly intervals: Intervals | null;
}
