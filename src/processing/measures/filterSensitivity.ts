import type { Rig } from "../../campaign/rigSchema.ts";
import { frequencyClassCoefficients, frequencyClassFilter } from "../../numerics/filter.ts";
import type { Contact, DropEvents } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import { pulseAt } from "./pulseDuration.ts";

/** Classes that are tried beside the declared one. */
const classes = [30, 60, 100, 180, 300, 600, 1000, 1650] as const;
/** The corner must stay below this share of the sampling rate. */
const highestCorner = 0.4;

/** What the first contact looks like after one filter. */
export interface Filtered {
  readonly filterClass: number;
  /** corner of one pass [Hz] */
  readonly cornerHz: number;
  /** [m/s²] */
  readonly peak: number;
  /** at 10 % of the peak [s]; NaN where the pulse does not come down to it */
  readonly durationS: number;
  /** ∫ a dt over the contact less v₁, over v₁; NaN where the contact has no end */
  readonly restitution: number;
}

/**
 * Peak, duration and restitution of the first contact after filters of several classes.
 *
 *   a_p = max a_f,   D at 10 % of a_p,   e = (∫ a_f dt − v₁)/v₁ over the contact of the unfiltered signal
 *
 * [m/s²], [s], [1]. How far a number hangs on the filter, beside the declared class; the declared one stays the result. v₁
 * is the unfiltered one.
 *
 * @param signal  the zeroed acceleration, evenly sampled
 * @param events  its events
 * @param slice   the samples that the declared filter ran over, from `filteredContact`
 * @param drop    says which standard's corner factor
 * @param impactSpeed v₁ [m/s]
 * @returns       one entry per class whose corner lies below 0.4 of the sampling rate, the declared class among them
 * @source        SAE J211-1 and ISO 6487 for the filter (from memory); classes between the standards' own: common practice
 * @checked       tests/processing/measures/dropContact.test.ts
 */
export function filterSensitivity(signal: DropSignal, events: DropEvents, slice: { readonly timesS: Float64Array; readonly raw: Float64Array }, drop: NonNullable<Rig["drop"]>, impactSpeed: number): Filtered[] {
  const rateHz = 1 / signal.intervalS;
  const [contact] = events.contacts as [Contact, ...Contact[]];
  const endS = contact.to?.timeS ?? Number.NaN;
  return classes.flatMap((filterClass): Filtered[] => {
    // The corner grows with the class, whatever the rate.
    if (filterClass * (25 / 12) > highestCorner * rateHz) return [];
    const { cornerHz } = frequencyClassCoefficients(filterClass, rateHz, drop.filterStandard);
    const acceleration = frequencyClassFilter(slice.raw, rateHz, filterClass, drop.filterStandard);
    let peak = -1;
    let change = 0;
    slice.timesS.forEach((timeS, i) => {
      if (timeS < contact.from.timeS || timeS >= (contact.to?.timeS ?? Infinity)) return;
      change += (acceleration[i] as number) * signal.intervalS;
      if (peak < 0 || (acceleration[i] as number) > (acceleration[peak] as number)) peak = i;
    });
    if (peak < 0) return [];
    const pulse = pulseAt({ timesS: slice.timesS, acceleration, peak });
    return [{ filterClass, cornerHz, peak: acceleration[peak] as number, durationS: pulse === null ? Number.NaN : pulse.end.timeS - pulse.start.timeS, restitution: Number.isNaN(endS) ? Number.NaN : (change - impactSpeed) / impactSpeed }];
  });
}
