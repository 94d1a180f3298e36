import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import { mean, standardDeviation } from "../../numerics/statistics.ts";
import { pathAt, speedAt } from "../conditioning/dropEvents.ts";
import type { DropEvents } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import type { FilteredContact } from "../conditioning/filteredContact.ts";
import { noiseRow, zeroRow } from "./dropRows.ts";

/** Shares of the peak force between which the loading counts. */
const from = 0.2;
const to = 0.8;
const fewest = 5;

/**
 * Stiffness of the wheel in loading: slope of force over compression before the hub turns round.
 *
 *   k = m · slope of (a_f + g) over d,   samples of the loading with F between 20 % and 80 % of its peak, least squares
 *
 * [N/m]. a_f passed the declared filter. A mean slope over that stretch; what the damping adds to the force is inside. The
 * gain of the accelerometer is in force and compression alike and cancels.
 *
 * @param signal  the zeroed acceleration
 * @param events  its events
 * @param contact the first contact, filtered
 * @param mass    m [kg]
 * @param clipped true when the contact was cut off at the sensor's range
 * @returns       k; undetermined with fewer than 5 samples in the stretch
 * @source        common practice; the limits of 20 % and 80 % are this measure's own
 * @checked       tests/processing/measures/dropContact.test.ts
 */
export function loadingStiffness(signal: DropSignal, events: DropEvents, contact: FilteredContact, mass: Estimate<"kg">, clipped: boolean): Estimate<"N/m"> {
  if (clipped) return undetermined("N/m", "the acceleration was cut off at the sensor's range during the contact");
  const touchS = events.fall.to.timeS;
  const peak = (contact.acceleration[contact.peak] as number) + signal.gravity;
  const compressions: number[] = [];
  const pushes: number[] = [];
  const times: number[] = [];
  for (let i = contact.peak; i >= 0; i--) {
    const timeS = contact.timesS[i] as number;
    const push = (contact.acceleration[i] as number) + signal.gravity;
    if (timeS < touchS || push < from * peak) break;
    if (push > to * peak || speedAt(signal, timeS) > 0) continue;
    compressions.push(pathAt(signal, touchS) - pathAt(signal, timeS));
    pushes.push(push);
    times.push(timeS);
  }
  if (times.length < fewest) return undetermined("N/m", `the loading holds ${times.length} samples between ${100 * from} % and ${100 * to} % of the peak force, fewer than ${fewest}`);
  const line = lineFit(compressions, pushes);
  const rateHz = 1 / signal.intervalS;
  // What passed the filter is alike over about half a period of its corner.
  const alike = Math.max(1, rateHz / (2 * contact.cornerHz));
  const spread = standardDeviation(compressions) * Math.sqrt(times.length - 1);
  const noise = contact.rest.length > 1 ? standardDeviation(contact.rest) : 0;
  const speed = mean(times.map((timeS) => -speedAt(signal, timeS)));
  // A speed that is wrong by a share makes the way wrong by the same share.
  const bySpeed = -(mass.value * line.slope) / speed;
  const middleS = mean(times);
  const value = mass.value * line.slope;
  const method = `slope of force over compression in loading, between ${100 * from} % and ${100 * to} % of the peak force, after ${contact.filter}`;
  if (mass.standardUncertainty === null) return undetermined("N/m", `${method}; no uncertainty, because: ${mass.method}`, value);
  const speedNoise = noiseRow(signal, signal.rest.toS, middleS, 1, "fall");
  return estimateFrom(value, "N/m", method, [
    ...mass.budget.map((row) => ({ ...row, effect: row.effect * line.slope })),
    zeroRow(signal, -bySpeed * (middleS - signal.rest.toS)),
    { ...speedNoise, effect: speedNoise.effect * bySpeed },
    { cause: `noise of the filtered acceleration, ${signal.run}`, effect: (mass.value * noise * Math.sqrt(alike)) / spread, sharedBy: null, degreesOfFreedom: signal.zeroDegreesOfFreedom },
  ]);
}
