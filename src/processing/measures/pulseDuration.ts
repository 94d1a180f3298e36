import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { standardDeviation } from "../../numerics/statistics.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import type { FilteredContact } from "../conditioning/filteredContact.ts";

/** Share of the peak at which a pulse begins and ends. */
const level = 0.1;

/**
 * Duration of the contact's pulse at 10 % of its peak.
 *
 *   D = t₂ − t₁,  a_f(t₁) = a_f(t₂) = 0.1 a_p
 *
 * The crossings next to the peak on either side, straight between samples. An ideal half-sine of duration D₀ gives
 * D = 0.936 D₀. Coordinate acceleration, filtered as the peak. [s]
 *
 * @param signal  the zeroed acceleration
 * @param contact the first contact, filtered
 * @param clipped true when the contact was cut off at the sensor's range
 * @returns       D; undetermined when the pulse does not come down to 10 % within the log
 * @source        10 % of peak: common practice of shock testing
 * @checked       tests/processing/measures/dropMeasures.test.ts
 */
export function pulseDuration(signal: DropSignal, contact: FilteredContact, clipped: boolean): Estimate<"s"> {
  if (clipped) return undetermined("s", "the acceleration was cut off at the sensor's range, so 10 % of the peak is unknown");
  const pulse = pulseAt(contact);
  if (pulse === null) return undetermined("s", "the pulse does not come down to 10 % of its peak within the log");
  const { start, end } = pulse;
  const noise = contact.rest.length > 1 ? standardDeviation(contact.rest) : 0;
  const row = (what: string, slope: number) => ({ cause: `noise at the ${what} of the pulse, ${signal.run}`, effect: noise / Math.abs(slope), sharedBy: null, degreesOfFreedom: signal.zeroDegreesOfFreedom });
  return estimateFrom(end.timeS - start.timeS, "s", `first contact between its crossings of 10 % of the peak, after ${contact.filter}`, [
    row("start", start.slope),
    row("end", end.slope),
    { cause: `zero of the acceleration, ${signal.run}`, effect: signal.zeroUncertainty * (1 - level) * (1 / Math.abs(end.slope) + 1 / Math.abs(start.slope)), sharedBy: null, degreesOfFreedom: signal.zeroDegreesOfFreedom },
    { cause: `sampling interval, ${signal.run}`, effect: signal.intervalS / Math.sqrt(6), sharedBy: null, degreesOfFreedom: Infinity },
  ]);
}

type Pulse = Pick<FilteredContact, "timesS" | "acceleration" | "peak">;

interface Crossing {
  readonly timeS: number;
  readonly slope: number;
}

/**
 * Where a pulse passes 10 % of its peak on either side.
 *
 *   a(t₁) = a(t₂) = 0.1 a_p
 *
 * Times [s] and slopes [m/s³] there, straight between samples.
 *
 * @param pulse times, accelerations and the index of the peak
 * @returns     both crossings; null when the pulse does not come down on a side
 * @source      10 % of peak: common practice of shock testing
 * @checked     tests/processing/measures/dropMeasures.test.ts
 */
export function pulseAt(pulse: Pulse): { readonly start: Crossing; readonly end: Crossing } | null {
  const threshold = level * (pulse.acceleration[pulse.peak] as number);
  const start = crossingFrom(pulse, -1, threshold);
  const end = crossingFrom(pulse, 1, threshold);
  return start === null || end === null ? null : { start, end };
}

function crossingFrom(contact: Pulse, direction: 1 | -1, threshold: number): Crossing | null {
  for (let i = contact.peak; ; i += direction) {
    const here = contact.acceleration[i];
    const next = contact.acceleration[i + direction];
    if (here === undefined || next === undefined) return null;
    if (next > threshold) continue;
    const share = (here - threshold) / (here - next);
    const step = (contact.timesS[i + direction] as number) - (contact.timesS[i] as number);
    return { timeS: (contact.timesS[i] as number) + share * step, slope: (next - here) / step };
  }
}
