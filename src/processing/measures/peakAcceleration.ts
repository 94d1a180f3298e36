import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { standardDeviation } from "../../numerics/statistics.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import type { FilteredContact } from "../conditioning/filteredContact.ts";
import { gainRow, zeroRow } from "./dropRows.ts";

/**
 * Largest acceleration of the first contact, after the declared filter.
 *
 *   a_p = max a_f(t),  t in the first contact
 *
 * a_f passed the channel frequency class filter both ways; its class belongs to the number. Coordinate acceleration: what an
 * accelerometer that feels gravity reads is larger by g. The largest of noisy samples lies a little high, by about the noise
 * that is in the budget. [m/s²]
 *
 * @param signal  the zeroed acceleration
 * @param contact the first contact, filtered
 * @param clipped true when the contact was cut off at the sensor's range
 * @returns       a_p with calibration, zero, noise and sampling in its budget
 * @source        SAE J211-1 and ISO 6487 for the filter (from memory)
 * @checked       tests/processing/measures/dropMeasures.test.ts
 */
export function peakAcceleration(signal: DropSignal, contact: FilteredContact, clipped: boolean): Estimate<"m/s2"> {
  if (clipped) return undetermined("m/s2", "the acceleration was cut off at the sensor's range; the peak was beyond it");
  const value = contact.acceleration[contact.peak] as number;
  const beside = Math.min(contact.acceleration[contact.peak - 1] ?? value, contact.acceleration[contact.peak + 1] ?? value);
  const noise = contact.rest.length > 1 ? standardDeviation(contact.rest) : 0;
  return estimateFrom(value, "m/s2", `largest sample of the first contact after ${contact.filter}; coordinate acceleration, rest = 0`, [
    ...gainRow(signal.doubt, value),
    zeroRow(signal, 1),
    { cause: `noise of the filtered acceleration, ${signal.run}`, effect: noise, sharedBy: null, degreesOfFreedom: signal.zeroDegreesOfFreedom },
    // Between samples the curve rises by at most a quarter of the fall to the neighbour.
    { cause: `sampling interval, ${signal.run}`, effect: (value - beside) / 4 / Math.sqrt(3), sharedBy: null, degreesOfFreedom: Infinity },
  ]);
}
