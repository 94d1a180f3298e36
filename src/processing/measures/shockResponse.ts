import type { Rig } from "../../campaign/rigSchema.ts";
import { estimateFrom } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { significant } from "../../core/significant.ts";
import { shockSpectrum } from "../../numerics/shockSpectrum.ts";
import type { ShockPoint } from "../../numerics/shockSpectrum.ts";
import type { DropEvents } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import type { FilteredContact } from "../conditioning/filteredContact.ts";
import { gainRow, zeroRow } from "./dropRows.ts";

/** Frequencies per octave. */
const perOctave = 12;
/** Fewest samples per period of the highest frequency. */
const samplesPerPeriod = 10;

/** The shock response spectrum of a drop's first contact. */
export interface ShockResponse {
  readonly points: readonly ShockPoint[];
  /** standard uncertainty of each maximax [m/s²] and of each pseudo-velocity [m/s] */
  readonly accelerationUncertainty: readonly number[];
  readonly velocityUncertainty: readonly number[];
  readonly largestAcceleration: Estimate<"m/s2">;
  readonly largestPseudoVelocity: Estimate<"m/s">;
  readonly findings: readonly Finding[];
}

/**
 * What the first contact does to things that stand on the hub: shock response spectrum and pseudo-velocity.
 *
 *   shock = a_f + g over the contact and one period of the filter's corner on either side, zero before and after
 *   f = f_from · 2^(i/12);  ends at the lowest of f_to, the filter's class, and a tenth of the sampling rate
 *   u² = (u_rel · value)² + π f s²Δt/(2ζ) + …      noise of a white acceleration in the oscillator (Miles); over ω for the velocity
 *
 * [m/s²], [m/s]. Against free fall, where what stands on the hub is at rest: gravity during the contact is part of the shock.
 * Damping ratio and range are declared; without them there is no spectrum.
 *
 * @param signal   the zeroed acceleration
 * @param events   its events; the contact must end
 * @param contact  the first contact, filtered
 * @param declared damping ratio and range of frequencies
 * @param filterClass the declared class of the filter
 * @returns        the spectrum, its largest values and a note where the range had to be cut; null where nothing is left of it
 * @source         ISO 18431-4; noise: J. W. Miles, J. Aeronaut. Sci. 21 (1954) 753 (both from memory)
 * @checked        tests/processing/measures/shockResponse.test.ts
 */
export function shockResponse(signal: DropSignal, events: DropEvents, contact: FilteredContact, declared: NonNullable<NonNullable<Rig["drop"]>["shockSpectrum"]>, filterClass: number): ShockResponse | null {
  const rateHz = 1 / signal.intervalS;
  const highestHz = Math.min(declared.toHz, filterClass, rateHz / samplesPerPeriod);
  const findings: Finding[] = highestHz === declared.toHz ? [] : [finding("shock-range-cut", "note", `rig.yaml asks for a shock response spectrum up to ${declared.toHz} Hz; filter class ${filterClass} and a sampling rate of ${rateHz.toFixed(0)} Hz show it up to ${highestHz.toFixed(0)} Hz. Declare a higher class, sample faster, or ask for less`, { channel: "hubAcceleration", measured: highestHz, limit: declared.toHz })];
  const count = 1 + Math.floor(perOctave * Math.log2(highestHz / declared.fromHz) + 1e-9);
  if (count < 2) return null;
  const shock = shockOf(signal, events, contact);
  const points = shockSpectrum(shock, rateHz, declared.dampingRatio, Array.from({ length: count }, (_, i) => declared.fromHz * 2 ** (i / perOctave)));
  const density = signal.noise ** 2 * signal.intervalS * ((1 + signal.lag1) / (1 - signal.lag1));
  const lasts = shock.length * signal.intervalS;
  // A lightly damped oscillator has not settled to its noise within the shock.
  const noiseAt = (hz: number): number => Math.sqrt(density * Math.min((Math.PI * hz) / (2 * declared.dampingRatio), (2 * Math.PI * hz) ** 2 * lasts));
  const estimate = <U extends "m/s2" | "m/s">(point: ShockPoint, value: number, unit: U, divisor: number): Estimate<U> =>
    estimateFrom(value, unit, `largest of the shock response spectrum of the first contact, at ${significant(point.frequencyHz, 3)} Hz, damping ratio ${declared.dampingRatio}, after ${contact.filter}`, [
      ...gainRow(signal.doubt, value),
      zeroRow(signal, 1 / divisor),
      { cause: `noise in the oscillator, ${signal.run}`, effect: noiseAt(point.frequencyHz) / divisor, sharedBy: null, degreesOfFreedom: signal.zeroDegreesOfFreedom },
      { cause: `sampling interval, ${signal.run}`, effect: (value * (1 - Math.cos((Math.PI * point.frequencyHz) / rateHz))) / Math.sqrt(3), sharedBy: null, degreesOfFreedom: Infinity },
    ]);
  const accelerations = points.map((point) => estimate(point, point.maximax, "m/s2", 1));
  const velocities = points.map((point) => estimate(point, point.pseudoVelocity, "m/s", 2 * Math.PI * point.frequencyHz));
  return {
    points,
    accelerationUncertainty: accelerations.map((one) => one.standardUncertainty ?? Number.NaN),
    velocityUncertainty: velocities.map((one) => one.standardUncertainty ?? Number.NaN),
    largestAcceleration: largest(accelerations),
    largestPseudoVelocity: largest(velocities),
    findings,
  };
}

/** The filtered acceleration against free fall, from just before first touch to just after lift-off. */
function shockOf(signal: DropSignal, events: DropEvents, contact: FilteredContact): Float64Array {
  const marginS = 1 / contact.cornerHz;
  const fromS = events.fall.to.timeS - marginS;
  const leave = events.flights[0];
  const endS = leave === undefined ? (contact.timesS.at(-1) as number) : Math.min(leave.from.timeS + marginS, (leave.from.timeS + leave.to.timeS) / 2);
  return contact.acceleration.filter((_, i) => (contact.timesS[i] as number) >= fromS && (contact.timesS[i] as number) <= endS).map((a) => a + signal.gravity);
}

function largest<U extends "m/s2" | "m/s">(estimates: readonly Estimate<U>[]): Estimate<U> {
  return estimates.reduce((best, one) => (one.value > best.value ? one : best));
}
