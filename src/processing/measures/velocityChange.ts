import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { BudgetRow, Estimate } from "../../core/estimate.ts";
import { speedAt } from "../conditioning/dropEvents.ts";
import type { Contact, DropEvents } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import { gainRow, noiseRow, shiftRows, timeRow, zeroRow } from "./dropRows.ts";

/**
 * Change of the hub's speed over the first contact, rebound included.
 *
 *   Δv = ∫ a dt, from first touch to lift-off  =  v₁ + v₂
 *
 * a is the coordinate acceleration, so gravity has already acted in it: the change that the ground's force alone makes is
 * larger by g times the duration of the contact. [m/s], positive upwards.
 *
 * @param signal  the zeroed acceleration
 * @param events  its events
 * @param clipped true when the contact was cut off at the sensor's range
 * @returns       Δv; undetermined when the wheel stays on the ground or the peak was cut off
 * @source        definition of acceleration
 * @checked       tests/processing/measures/dropMeasures.test.ts
 */
export function velocityChange(signal: DropSignal, events: DropEvents, clipped: boolean): Estimate<"m/s"> {
  const contact = events.contacts[0] as Contact;
  if (contact.to === null) return undetermined("m/s", "the wheel did not leave the ground after first touch, so the contact has no end");
  if (clipped) return undetermined("m/s", "the acceleration was cut off at the sensor's range during the contact");
  const value = speedAt(signal, contact.to.timeS) - speedAt(signal, contact.from.timeS);
  const duration = contact.to.timeS - contact.from.timeS;
  return estimateFrom(value, "m/s", "coordinate acceleration integrated over the first contact; the impulse of the ground is larger by g times its duration", [
    ...gainRow(signal.doubt, value),
    zeroRow(signal, duration),
    ...shiftRows(signal, duration),
    noiseRow(signal, contact.from.timeS, contact.to.timeS, 1, "contact 1"),
    timeRow(signal, contact.from, -events.fall.touching),
    timeRow(signal, contact.to, events.flights[0]?.leaving ?? -signal.gravity),
    samplingRow(signal, contact),
  ]);
}

/** A jump of the acceleration falls anywhere within a sampling interval; the trapezoid spreads it over the whole of it. */
function samplingRow(signal: DropSignal, contact: Contact): BudgetRow {
  let jump = 0;
  for (let i = 1; i < signal.timesS.length; i++) {
    const timeS = signal.timesS[i] as number;
    if (timeS < contact.from.timeS || timeS > (contact.to?.timeS ?? 0)) continue;
    jump = Math.max(jump, Math.abs((signal.acceleration[i] as number) - (signal.acceleration[i - 1] as number)));
  }
  return { cause: `sampling interval, ${signal.run}`, effect: (jump * signal.intervalS) / Math.sqrt(12), sharedBy: null, degreesOfFreedom: Infinity, shape: "rectangular" };
}
