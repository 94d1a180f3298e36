import { undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Measure } from "../core/measure.ts";
import type { Unit } from "../core/units.ts";
import { thinForDrawing } from "../numerics/resample.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import { pathAt } from "./conditioning/dropEvents.ts";
import type { DropEvents, Instant } from "./conditioning/dropEvents.ts";
import type { DropSignal } from "./conditioning/dropSignal.ts";
import type { FilteredContact } from "./conditioning/filteredContact.ts";
import type { Curve } from "./dayResult.ts";
import { bounceEnergies } from "./measures/bounceEnergies.ts";
import { compressionAt, largestCompression, turningTime } from "./measures/compression.ts";
import { contactDuration } from "./measures/contactDuration.ts";
import { contactWork, motionEnergy } from "./measures/contactEnergy.ts";
import { contactForce } from "./measures/contactForce.ts";
import { fallingMass } from "./measures/fallingMass.ts";
import { filterSensitivity } from "./measures/filterSensitivity.ts";
import { heightAgainstPath } from "./measures/heightAgainstPath.ts";
import { loadingStiffness } from "./measures/loadingStiffness.ts";
import { equivalentDamping, loopDampingRatio } from "./measures/loopDamping.ts";
import { shockResponse } from "./measures/shockResponse.ts";
import type { PreparedRun } from "./preparedRun.ts";

/** Points kept of a loop for drawing. */
const loopPoints = 200;
/** Share by which the compression of two sensors may differ beside three times both uncertainties. */
const compressionAgreement = 0.05;

/** What is already known of the first contact. */
export interface FirstContact {
  readonly impact: Estimate<"m/s">;
  readonly rebound: Estimate<"m/s">;
  readonly peak: Estimate<"m/s2">;
  readonly filtered: FilteredContact | null;
  /** why there is no filtered contact */
  readonly reason: string;
  readonly clipped: boolean;
}

/** Measures of the first contact's mechanics, determined or with the reason why not. */
export const contactMeasures = {
  peakForce: { label: "Peak contact force", unit: "N" },
  contactDuration: { label: "Contact duration", unit: "s" },
  largestCompression: { label: "Largest compression", unit: "m" },
  compressionAtLiftOff: { label: "Compression at lift-off", unit: "m" },
  loadingStiffness: { label: "Stiffness in loading", unit: "N/m" },
  impactEnergy: { label: "Impact energy", unit: "J" },
  absorbedEnergy: { label: "Absorbed energy, area of the loop", unit: "J" },
  equivalentDamping: { label: "Equivalent damping", unit: "N.s/m" },
  dampingRatioLoop: { label: "Damping ratio, loop", unit: "1" },
  shockResponsePeak: { label: "Shock response, largest", unit: "m/s2" },
  pseudoVelocityPeak: { label: "Pseudo-velocity, largest", unit: "m/s" },
} as const satisfies Record<string, { readonly label: string; readonly unit: Unit }>;

/** Force, displacement, energies and shock response of the first contact, and energies bounce by bounce. */
export function dropContact(run: PreparedRun, drop: NonNullable<Rig["drop"]>, signal: DropSignal, events: DropEvents, first: FirstContact): { readonly measures: readonly Measure[]; readonly curves: readonly Curve[]; readonly findings: readonly Finding[] } {
  const { impact, rebound, peak, filtered, clipped } = first;
  const mass = fallingMass(run.wheel, drop);
  const touch = events.fall.to;
  const end = events.contacts[0]?.to ?? null;
  const compression = largestCompression(signal, touch, impact, clipped);
  const leaving = end === null ? undetermined("m", "the wheel did not leave the ground after first touch") : clipped ? undetermined("m", "the acceleration was cut off at the sensor's range during the contact") : compressionAt(signal, touch, impact, end);
  const duration = contactDuration(signal, touch, end);
  const loading = contactWork(mass, impact, null, compression, signal.gravity, "work up to the largest compression");
  const absorbed = contactWork(mass, impact, rebound, leaving, signal.gravity, "area of the loop of force over compression from first touch to lift-off: what wheel, ground and guide took");
  const shock = shocked(signal, events, first, drop);
  const contactSegment = { kind: "contact" as const, fromS: touch.timeS, toS: end?.timeS ?? (signal.timesS.at(-1) as number), reason: "the first contact" };
  const values: Record<keyof typeof contactMeasures, Estimate> = {
    peakForce: contactForce(mass, peak, signal.gravity),
    contactDuration: duration,
    largestCompression: compression,
    compressionAtLiftOff: leaving,
    loadingStiffness: filtered === null ? undetermined("N/m", first.reason) : loadingStiffness(signal, events, filtered, mass, clipped),
    impactEnergy: motionEnergy(mass, impact, "½ m v² at first touch"),
    absorbedEnergy: absorbed,
    equivalentDamping: equivalentDamping(absorbed, compression, duration),
    dampingRatioLoop: loopDampingRatio(absorbed, loading),
    ...shock.values,
  };
  const byHeight = heightCompression(signal, touch, compression);
  return {
    measures: [
      ...Object.entries(values).map(([name, estimate]): Measure => ({ name, label: contactMeasures[name as keyof typeof contactMeasures].label, estimate, segment: contactSegment })),
      ...(byHeight.estimate === null ? [] : [{ name: "compressionFromHeight", label: "Largest compression from height", estimate: byHeight.estimate, segment: contactSegment }]),
    ],
    curves: [
      ...(filtered === null || clipped ? [] : [...loopCurve(signal, touch, end, filtered, mass), ...sensitivityCurves(signal, events, filtered, drop, impact)]),
      ...shock.curves,
      ...energyCurve(clipped ? [] : bounceEnergies(signal, events, mass, impact)),
    ],
    findings: [...byHeight.findings, ...sunkAtLiftOff(leaving), ...shock.findings],
  };
}

/** A second look at the compression from the height channel, which knows nothing of the accelerometer. */
function heightCompression(signal: DropSignal, touch: Instant, compression: Estimate<"m">): { readonly estimate: Estimate<"m"> | null; readonly findings: readonly Finding[] } {
  const turnS = turningTime(signal, touch);
  if (signal.height === null || turnS === null || compression.standardUncertainty === null) return { estimate: null, findings: [] };
  const half = 0.3 * (turnS - touch.timeS);
  const lowest = heightAgainstPath(signal, signal.height, turnS - half, turnS + half, { instant: { timeS: turnS, uncertaintyS: 0, cause: "time of largest compression" }, acceleration: 0 }, "largest compression").height;
  const estimate = { ...lowest, value: -lowest.value, budget: lowest.budget.map((row) => ({ ...row, effect: -row.effect })) };
  if (estimate.standardUncertainty === null) return { estimate, findings: [] };
  const away = Math.abs(estimate.value - compression.value);
  const limit = 3 * Math.hypot(estimate.standardUncertainty, compression.standardUncertainty) + compressionAgreement * Math.abs(estimate.value);
  if (away <= limit) return { estimate, findings: [] };
  return { estimate, findings: [finding("compression-differs", "look", `The acceleration integrated twice gives a largest compression of ${(1000 * compression.value).toFixed(2)} mm, the height channel ${(1000 * estimate.value).toFixed(2)} mm. Look at the accelerometer's gain and mounting, at the height's zero, and whether the ground yields`, { channel: "dropHeight", measured: away, limit })] };
}

/** At lift-off the wheel pushes no more, so the hub stands at first touch or below it, by what the wheel still has to recover. */
function sunkAtLiftOff(leaving: Estimate<"m">): Finding[] {
  const { value, standardUncertainty: u } = leaving;
  if (u === null || value >= -3 * u) return [];
  return [finding("loop-not-closed", "look", `The acceleration integrated twice puts the hub ${(-1000 * value).toFixed(2)} mm above first touch when the ground lets go of it, which no wheel does: the integral drifts. Look at the accelerometer's zero, range and mounting`, { channel: "hubAcceleration", measured: -value, limit: 3 * u })];
}

function curve(name: string, x: Curve["x"], y: Curve["y"], method: string, yUncertainty: readonly number[] | null = null): Curve {
  return { name, x, y, yUncertainty, method };
}

const numbers = (values: Iterable<number>): (number | null)[] => Array.from(values, (value) => (Number.isFinite(value) ? value : null));

function loopCurve(signal: DropSignal, touch: Instant, end: Instant | null, filtered: FilteredContact, mass: Estimate<"kg">): Curve[] {
  if (!Number.isFinite(mass.value)) return [];
  const touchS = touch.timeS;
  const toS = end?.timeS ?? Infinity;
  const inside = Array.from(filtered.timesS.keys()).filter((i) => (filtered.timesS[i] as number) >= touchS && (filtered.timesS[i] as number) <= toS);
  const times = Float64Array.from(inside, (i) => filtered.timesS[i] as number);
  const forces = thinForDrawing(times, Float64Array.from(inside, (i) => mass.value * ((filtered.acceleration[i] as number) + signal.gravity)), loopPoints);
  const compressions = Array.from(forces.times, (timeS) => pathAt(signal, touchS) - pathAt(signal, timeS));
  return [curve("forceCompression", { label: "compression", unit: "m", values: numbers(compressions) }, { label: "contact force", unit: "N", values: numbers(forces.values) }, `force after ${filtered.filter}; compression unfiltered`)];
}

function sensitivityCurves(signal: DropSignal, events: DropEvents, filtered: FilteredContact, drop: NonNullable<Rig["drop"]>, impact: Estimate<"m/s">): Curve[] {
  const tried = filterSensitivity(signal, events, filtered, drop, impact.value);
  const x = { label: "filter class", unit: "Hz" as const, values: tried.map((one) => one.filterClass) };
  const side = (name: string, label: string, unit: Unit, read: (one: (typeof tried)[number]) => number): Curve => curve(name, x, { label, unit, values: numbers(tried.map(read)) }, `the same contact after two-pass filters of other classes, ${drop.filterStandard}; declared is ${drop.filterClass}`);
  return [side("peakByFilter", "peak acceleration", "m/s2", (one) => one.peak), side("durationByFilter", "pulse duration at 10 %", "s", (one) => one.durationS), side("restitutionByFilter", "restitution from velocities", "1", (one) => one.restitution)];
}

function energyCurve(energies: readonly Estimate<"J">[]): Curve[] {
  if (energies.length === 0 || !Number.isFinite(energies[0]?.value)) return [];
  const doubts = energies.map((energy) => energy.standardUncertainty);
  return [curve("bounceEnergy", { label: "bounces", unit: "1", values: energies.map((_, i) => i) }, { label: "energy of the motion", unit: "J", values: numbers(energies.map((energy) => energy.value)) }, "½ m v² at first touch, then at every lift-off, from the flight after it", doubts.every((u): u is number => u !== null) ? doubts : null)];
}

interface Shocked {
  readonly values: { readonly shockResponsePeak: Estimate<"m/s2">; readonly pseudoVelocityPeak: Estimate<"m/s"> };
  readonly curves: readonly Curve[];
  readonly findings: readonly Finding[];
}

function shocked(signal: DropSignal, events: DropEvents, first: FirstContact, drop: NonNullable<Rig["drop"]>): Shocked {
  const none = (reason: string): Shocked => ({ values: { shockResponsePeak: undetermined("m/s2", reason), pseudoVelocityPeak: undetermined("m/s", reason) }, curves: [], findings: [] });
  if (drop.shockSpectrum === undefined) return none("rig.yaml declares no shockSpectrum under drop (dampingRatio, fromHz, toHz); the spectrum hangs on them and nothing is assumed");
  if (first.clipped) return none("the acceleration was cut off at the sensor's range during the contact");
  if (first.filtered === null) return none(first.reason);
  if (events.contacts[0]?.to == null) return none("the wheel did not leave the ground after first touch, so the shock has no end");
  const response = shockResponse(signal, events, first.filtered, drop.shockSpectrum, drop.filterClass);
  if (response === null) return none(`of the declared range from ${drop.shockSpectrum.fromHz} to ${drop.shockSpectrum.toHz} Hz less than two frequencies lie below the filter's class and a tenth of the sampling rate`);
  const x = { label: "natural frequency", unit: "Hz" as const, values: response.points.map((point) => point.frequencyHz) };
  const method = `damping ratio ${drop.shockSpectrum.dampingRatio}, after ${first.filtered.filter}, against free fall`;
  const spectrum = (name: string, label: string, unit: Unit, values: readonly number[], doubts: readonly number[] | null): Curve => curve(name, x, { label, unit, values: numbers(values) }, method, doubts);
  return {
    values: { shockResponsePeak: response.largestAcceleration, pseudoVelocityPeak: response.largestPseudoVelocity },
    curves: [
      spectrum("shockResponse", "largest acceleration of the oscillator", "m/s2", response.points.map((point) => point.maximax), response.accelerationUncertainty),
      spectrum("shockResidual", "largest acceleration after the contact", "m/s2", response.points.map((point) => point.residual), null),
      spectrum("pseudoVelocity", "pseudo-velocity", "m/s", response.points.map((point) => point.pseudoVelocity), response.velocityUncertainty),
    ],
    findings: response.findings,
  };
}
