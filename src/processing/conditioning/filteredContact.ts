import type { Rig } from "../../campaign/rigSchema.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { frequencyClassCoefficients, frequencyClassFilter, minimumRateHz } from "../../numerics/filter.ts";
import type { DropEvents } from "./dropEvents.ts";
import type { DropSignal } from "./dropSignal.ts";

/** The drop from the rest on, filtered as declared. */
export interface FilteredContact {
  readonly timesS: Float64Array;
  readonly acceleration: Float64Array;
  /** the same samples before the filter */
  readonly raw: Float64Array;
  /** the filtered samples of the rest */
  readonly rest: Float64Array;
  /** index of the largest sample of the first contact */
  readonly peak: number;
  /** corner of one pass [Hz] */
  readonly cornerHz: number;
  /** the filter in words */
  readonly filter: string;
}

/** The two-pass filter over rest, fall, first contact and the flight after it; null with the reason where it cannot be applied. */
export function filteredContact(signal: DropSignal, events: DropEvents, drop: NonNullable<Rig["drop"]>): { readonly contact: FilteredContact | null; readonly reason: string; readonly findings: readonly Finding[] } {
  const rateHz = 1 / signal.intervalS;
  const findings: Finding[] = [];
  if (rateHz < minimumRateHz(drop.filterClass) * (1 - 1e-6)) {
    findings.push(finding("rate-too-low", "look", `The acceleration was sampled at ${rateHz.toFixed(0)} Hz; filter class ${drop.filterClass} asks for at least ${minimumRateHz(drop.filterClass)} Hz. Peaks are too low and depend on the rate. Sample faster, or declare a lower class`, { channel: "hubAcceleration", measured: rateHz, limit: minimumRateHz(drop.filterClass) }));
  }
  if (!signal.even) return { contact: null, reason: "the acceleration is not sampled at even intervals, as the filter needs", findings };
  if (rateHz < 4.2 * drop.filterClass) return { contact: null, reason: `the filter's corner lies above half the sampling rate of ${rateHz.toFixed(0)} Hz`, findings };
  const endS = signal.timesS[signal.timesS.length - 1] as number;
  const contactEnd = events.contacts[0]?.to?.timeS ?? endS;
  const toS = events.flights[0]?.to.timeS ?? endS;
  const from = signal.timesS.findIndex((timeS) => timeS >= signal.rest.fromS);
  const after = signal.timesS.findIndex((timeS) => timeS > toS);
  const slice = signal.acceleration.subarray(from, after < 0 ? signal.acceleration.length : after);
  if (slice.some(Number.isNaN)) return { contact: null, reason: "samples are missing between the rest and the end of the first flight, and the filter needs them all", findings };
  const timesS = signal.timesS.subarray(from, from + slice.length);
  const acceleration = Float64Array.from(frequencyClassFilter(slice, rateHz, drop.filterClass, drop.filterStandard));
  let peak = -1;
  for (let i = 0; i < timesS.length; i++) {
    const inside = (timesS[i] as number) >= events.fall.to.timeS && (timesS[i] as number) < contactEnd;
    if (inside && (peak < 0 || (acceleration[i] as number) > (acceleration[peak] as number))) peak = i;
  }
  if (peak < 0) return { contact: null, reason: "the first contact holds no sample", findings };
  const restEnd = timesS.findIndex((timeS) => timeS >= signal.rest.toS);
  const filter = `the two-pass filter of class ${drop.filterClass} (${drop.filterStandard})`;
  return { contact: { timesS, acceleration, raw: slice, cornerHz: frequencyClassCoefficients(drop.filterClass, rateHz, drop.filterStandard).cornerHz, rest: acceleration.subarray(0, restEnd), peak, filter }, reason: "", findings };
}
