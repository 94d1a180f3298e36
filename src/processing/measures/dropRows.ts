import type { BudgetRow } from "../../core/estimate.ts";
import type { Doubt } from "../../core/recording.ts";
import { effectiveSampleSize } from "../../numerics/statistics.ts";
import type { Instant } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";

/**
 * Calibration row of a result that is proportional to the channel's gain.
 *
 *   effect = part · u_rel
 *
 * Unit of the result.
 *
 * @param doubt        of the channel
 * @param proportional the part of the result that grows with the gain
 * @returns one row shared by all runs on the calibration; none where no uncertainty is stated
 * @source  JCGM 100:2008, 5.1.3: sensitivity times standard uncertainty
 * @checked tests/processing/dropRun.test.ts
 */
export function gainRow(doubt: Doubt | null, proportional: number): BudgetRow[] {
  if (doubt === null) return [];
  const cause = `calibration ${doubt.calibration}`;
  return [{ cause, effect: proportional * doubt.relativeGain, sharedBy: cause, degreesOfFreedom: Infinity }];
}

/**
 * Row of the accelerometer's zero.
 *
 *   effect = slope · u(zero)
 *
 * Unit of the result.
 *
 * @param signal the zeroed acceleration
 * @param slope  change of the result per m/s² that all samples rise
 * @returns the row; one cause for all results of the run
 * @source  JCGM 100:2008, 5.1.3: sensitivity times standard uncertainty
 * @checked tests/processing/dropRun.test.ts
 */
export function zeroRow(signal: DropSignal, slope: number): BudgetRow {
  return { cause: `zero of the acceleration, ${signal.run}`, effect: slope * signal.zeroUncertainty, sharedBy: null, degreesOfFreedom: signal.zeroDegreesOfFreedom };
}

/**
 * Row of a zero that moved at the impact, by the level at which the log ends at rest.
 *
 *   effect = slope · |shift| / √3
 *
 * Rectangular: anything between none and all of the shift, either way. Unit of the result.
 *
 * @param signal the zeroed acceleration
 * @param slope  change of the result per m/s² that the samples after touch rise
 * @returns the row; none where the log ends before rest returns
 * @source  JCGM 100:2008, 5.1.3: sensitivity times standard uncertainty
 * @checked tests/processing/dropRun.test.ts
 */
export function shiftRows(signal: DropSignal, slope: number): BudgetRow[] {
  if (signal.after === null) return [];
  return [{ cause: `zero after the impact, ${signal.run}`, effect: slope * (Math.abs(signal.after.mean) / Math.sqrt(3)), sharedBy: null, degreesOfFreedom: Infinity }];
}

/**
 * Row of an event's time.
 *
 *   effect = slope · u(t)
 *
 * Unit of the result.
 *
 * @param signal  the zeroed acceleration
 * @param instant the event
 * @param slope   change of the result per second that the event is later
 * @returns the row; one cause for all results that hang on the event
 * @source  JCGM 100:2008, 5.1.3: sensitivity times standard uncertainty
 * @checked tests/processing/dropRun.test.ts
 */
export function timeRow(signal: DropSignal, instant: Instant, slope: number): BudgetRow {
  return { cause: `${instant.cause}, ${signal.run}`, effect: slope * instant.uncertaintyS, sharedBy: null, degreesOfFreedom: Infinity };
}

/**
 * Row of the noise in a weighted integral of the acceleration over a stretch.
 *
 *   effect = w T s / √n_eff
 *
 * s the scatter at rest, n_eff by its correlation. Unit of the result.
 *
 * @param signal  the zeroed acceleration
 * @param fromS   start of the stretch [s]
 * @param toS     its end [s]
 * @param weight  root mean square w of the weight
 * @param stretch names the stretch; equal names are one cause
 * @returns the row
 * @source  JCGM 100:2008, 5.1.3: sensitivity times standard uncertainty
 * @checked tests/processing/dropRun.test.ts
 */
export function noiseRow(signal: DropSignal, fromS: number, toS: number, weight: number, stretch: string): BudgetRow {
  const duration = toS - fromS;
  const count = Math.max(1, Math.round(duration / signal.intervalS));
  const effect = weight * duration * (signal.noise / Math.sqrt(effectiveSampleSize(count, signal.lag1)));
  return { cause: `noise of the acceleration, ${stretch}, ${signal.run}`, effect, sharedBy: null, degreesOfFreedom: signal.zeroDegreesOfFreedom };
}
