import type { BudgetRow } from "../../core/estimate.ts";
import type { Doubt } from "../../core/recording.ts";
import { effectiveSampleSize } from "../../numerics/statistics.ts";
import type { Instant } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";

/** Calibration row of a result that is proportional to the channel's gain; none where no uncertainty is stated. */
export function gainRow(doubt: Doubt | null, proportional: number): BudgetRow[] {
  if (doubt === null) return [];
  const cause = `calibration ${doubt.calibration}`;
  return [{ cause, effect: proportional * doubt.relativeGain, sharedBy: cause, degreesOfFreedom: Infinity }];
}

/** Row of the accelerometer's zero; `slope` is the change of the result per m/s² of zero. */
export function zeroRow(signal: DropSignal, slope: number): BudgetRow {
  return { cause: `zero of the acceleration, ${signal.run}`, effect: slope * signal.zeroUncertainty, sharedBy: null, degreesOfFreedom: signal.zeroDegreesOfFreedom };
}

/** Row of a zero that moved at the impact, from the rest after the drop: anything between none and all of the shift. */
export function shiftRows(signal: DropSignal, slope: number): BudgetRow[] {
  if (signal.after === null) return [];
  return [{ cause: `zero after the impact, ${signal.run}`, effect: slope * (Math.abs(signal.after.mean) / Math.sqrt(3)), sharedBy: null, degreesOfFreedom: Infinity }];
}

/** Row of an event's time; `slope` is the change of the result per second of delay. */
export function timeRow(signal: DropSignal, instant: Instant, slope: number): BudgetRow {
  return { cause: `${instant.cause}, ${signal.run}`, effect: slope * instant.uncertaintyS, sharedBy: null, degreesOfFreedom: Infinity };
}

/** Row of the noise in an integral of the acceleration over a stretch; `weight` is the root mean square of the integrand's weight. */
export function noiseRow(signal: DropSignal, fromS: number, toS: number, weight: number, stretch: string): BudgetRow {
  const duration = toS - fromS;
  const count = Math.max(1, Math.round(duration / signal.intervalS));
  const effect = weight * duration * (signal.noise / Math.sqrt(effectiveSampleSize(count, signal.lag1)));
  return { cause: `noise of the acceleration, ${stretch}, ${signal.run}`, effect, sharedBy: null, degreesOfFreedom: signal.zeroDegreesOfFreedom };
}
