import { estimateFrom } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import type { DropEvents } from "../conditioning/dropEvents.ts";
import { speedAt } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import { gainRow, noiseRow, timeRow, zeroRow } from "./dropRows.ts";

/**
 * Speed of the hub at first touch, from its acceleration.
 *
 *   v₁ = −∫ a dt, from the rest before release to first touch
 *
 * a is the coordinate acceleration: 0 at rest, −g in free fall. Starting the integral in the rest leaves the time of the
 * release without influence, and guide friction is in the measured a. [m/s], positive downwards.
 *
 * @param signal the zeroed acceleration
 * @param events its events
 * @returns      v₁ with noise, zero, calibration and time of touch in its budget
 * @source       definition of acceleration
 * @checked      tests/processing/dropRun.test.ts
 */
export function impactSpeed(signal: DropSignal, events: DropEvents): Estimate<"m/s"> {
  const touch = events.fall.to;
  const value = -speedAt(signal, touch.timeS);
  const duration = touch.timeS - signal.rest.toS;
  return estimateFrom(value, "m/s", "acceleration integrated from the rest before release to first touch", [
    ...gainRow(signal.doubt, value),
    zeroRow(signal, -duration),
    noiseRow(signal, signal.rest.toS, touch.timeS, 1, "fall"),
    timeRow(signal, touch, -events.fall.touching),
    // The release is a step of g somewhere between two samples.
    { cause: `release between two samples, ${signal.run}`, effect: (signal.gravity * signal.intervalS) / Math.sqrt(12), sharedBy: null, degreesOfFreedom: Infinity },
  ]);
}
