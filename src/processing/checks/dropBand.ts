import type { TolerancePair } from "../../campaign/tolerances.ts";
import type { Finding } from "../../core/finding.ts";
import { realSpectrum } from "../../numerics/spectrum.ts";
import type { DropEvents } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import { judged, percent } from "./judged.ts";

/** Where the upper part of the sampled band begins, as a share of half the rate: a filter against folding has closed by there (common practice). */
const upper = 2 / 3;
const fewestSamples = 32;

/**
 * Share of the first contact's power, its mean taken off, that lies just below half the sampling rate. Behind a filter against
 * folding there is nothing but noise; power there says that faster ringing was sampled unfiltered and folded into the pulse.
 */
export function dropBand(signal: DropSignal, events: DropEvents, limits: TolerancePair): Finding[] {
  const [contact] = events.contacts;
  if (contact === undefined || !signal.even) return [];
  const fromS = contact.from.timeS;
  const toS = contact.to?.timeS ?? (signal.timesS[signal.timesS.length - 1] as number);
  const values = Array.from(signal.acceleration).filter((_, i) => (signal.timesS[i] as number) >= fromS && (signal.timesS[i] as number) < toS);
  if (values.length < fewestSamples || values.some(Number.isNaN)) return [];
  const level = values.reduce((sum, value) => sum + value, 0) / values.length;
  const rateHz = 1 / signal.intervalS;
  const { frequenciesHz, real, imaginary } = realSpectrum(values.map((value, i) => (value - level) * (1 - Math.cos((2 * Math.PI * (i + 0.5)) / values.length))), rateHz);
  let all = 0;
  let high = 0;
  frequenciesHz.forEach((frequency, i) => {
    const power = (real[i] as number) ** 2 + (imaginary[i] as number) ** 2;
    all += power;
    if (frequency > (upper * rateHz) / 2) high += power;
  });
  const share = high / all;
  return judged("drop-unfiltered", share, limits, () => `${percent(share)} of the blow's power lies in the upper third of the sampled band (above ${((upper * rateHz) / 2).toFixed(0)} Hz): no filter ended below half the rate, and faster ringing is folded into peak and pulse. Switch the filter against folding on, or sample faster`, { channel: "hubAcceleration", fromS, toS });
}
