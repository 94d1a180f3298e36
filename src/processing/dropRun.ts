import type { Rig } from "../campaign/rigSchema.ts";
import { estimateFrom, undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit } from "../core/fit.ts";
import type { Measure } from "../core/measure.ts";
import type { Segment } from "../core/segment.ts";
import type { Unit } from "../core/units.ts";
import { dropBand } from "./checks/dropBand.ts";
import { decayPeaks } from "./conditioning/decayPeaks.ts";
import { dropEvents, samplesAtRange } from "./conditioning/dropEvents.ts";
import type { Contact, DropEvents } from "./conditioning/dropEvents.ts";
import { dropSignal } from "./conditioning/dropSignal.ts";
import type { DropSignal } from "./conditioning/dropSignal.ts";
import { filteredContact } from "./conditioning/filteredContact.ts";
import { contactMeasures, dropContact } from "./dropContact.ts";
import { absorbedShare } from "./measures/absorbedShare.ts";
import { adoptedRestitution } from "./measures/adoptedRestitution.ts";
import { dampingByDecrement } from "./measures/dampingByDecrement.ts";
import { dampingByFit } from "./measures/dampingByFit.ts";
import { dampingByHalfPower } from "./measures/dampingByHalfPower.ts";
import { decayCharacter } from "./measures/decayCharacter.ts";
import { heightReadings } from "./measures/heightReadings.ts";
import type { HeightReadings } from "./measures/heightReadings.ts";
import { impactSpeed } from "./measures/impactSpeed.ts";
import { impactSpeedLimit, setHeight } from "./measures/impactSpeedLimit.ts";
import { impulseCheck } from "./measures/impulseCheck.ts";
import { peakAcceleration } from "./measures/peakAcceleration.ts";
import { pulseDuration } from "./measures/pulseDuration.ts";
import { flightSpeed, reboundSpeed, returnSpeed, riseOfFlight } from "./measures/reboundSpeed.ts";
import { restitutionFromVelocities } from "./measures/restitution.ts";
import { timedSpeeds } from "./measures/timedSpeeds.ts";
import { velocityChange } from "./measures/velocityChange.ts";
import type { PreparedRun, Reduced } from "./preparedRun.ts";

/** Measures every drop run has, determined or with the reason why not. */
const always = {
  impactSpeed: { label: "Impact speed", unit: "m/s" },
  reboundSpeed: { label: "Rebound speed", unit: "m/s" },
  restitution: { label: "Coefficient of restitution", unit: "1" },
  restitutionFromVelocities: { label: "Restitution from velocities", unit: "1" },
  restitutionFromFlightTimes: { label: "Restitution from flight time", unit: "1" },
  restitutionFromHeights: { label: "Restitution from heights", unit: "1" },
  absorbedShare: { label: "Absorbed energy share", unit: "1" },
  peakAcceleration: { label: "Peak acceleration", unit: "m/s2" },
  pulseDuration: { label: "Pulse duration at 10 %", unit: "s" },
  velocityChange: { label: "Velocity change", unit: "m/s" },
  impulseRatio: { label: "Impulse check", unit: "1" },
  dampingRatioDecrement: { label: "Damping ratio, decrement", unit: "1" },
  dampingRatioFit: { label: "Damping ratio, fit", unit: "1" },
  dampingRatioHalfPower: { label: "Damping ratio, half power", unit: "1" },
  naturalFrequency: { label: "Natural frequency", unit: "Hz" },
  ...contactMeasures,
} as const satisfies Record<string, { readonly label: string; readonly unit: Unit }>;

/** A drop: what the first contact did to the hub, and how the ringing died. */
export function reduceDropRun(run: PreparedRun): Reduced {
  const { signal, findings } = dropSignal(run);
  if (signal === null || run.rig.drop === undefined) return empty(findings, []);
  const { events, findings: eventFindings } = dropEvents(signal);
  if (events === null) return empty([...findings, ...eventFindings], [signal.rest]);
  const blow = firstContact(run, signal, events, run.rig.drop);
  const ringing = decay(signal, events);
  return {
    measures: [...blow.measures, ...ringing.measures],
    curves: blow.curves,
    fits: ringing.fits,
    findings: [...findings, ...eventFindings, ...blow.findings, ...ringing.findings],
    segments: [...events.segments, ...ringing.segments],
    windowChoices: [],
  };
}

function empty(findings: readonly Finding[], segments: readonly Segment[]): Reduced {
  const reason = findings.find((candidate) => candidate.severity === "reject")?.message ?? "no drop was found";
  const measures = Object.entries(always).map(([name, { label, unit }]): Measure => ({ name, label, estimate: undetermined(unit, reason), segment: null }));
  return { measures, fits: [], findings, segments, windowChoices: [] };
}

function measure(name: keyof typeof always, estimate: Estimate, segment: Segment | null): Measure {
  return { name, label: always[name].label, estimate, segment };
}

function firstContact(run: PreparedRun, signal: DropSignal, events: DropEvents, drop: NonNullable<Rig["drop"]>) {
  const tolerances = run.rig.tolerances;
  const cut = clipping(signal, events);
  const impact = impactSpeed(signal, events);
  const change = velocityChange(signal, events, cut.clipped);
  const rebound = reboundSpeed(impact, change);
  const flight = events.flights[0];
  const leaving = firstFlightSpeed(signal, events, impact, cut.clipped);
  const heights = heightReadings(signal, events, leaving.value);
  const fromVelocities = restitutionFromVelocities(rebound, impact, "rebound over impact speed, both from the acceleration");
  const fromFlight = restitutionFromVelocities(leaving, impact, "lift-off speed from the flight's duration and measured deceleration (g t/2 without friction) over impact speed");
  const adopted = adoptedRestitution([{ name: "velocities", estimate: fromVelocities }, { name: "flight times", estimate: fromFlight }, { name: "heights", estimate: heights.restitution }], tolerances.restitutionAgreement);
  const filtered = filteredContact(signal, events, drop);
  const peak = filtered.contact === null ? undetermined("m/s2", filtered.reason) : peakAcceleration(signal, filtered.contact, cut.clipped);
  const duration = filtered.contact === null ? undetermined("s", filtered.reason) : pulseDuration(signal, filtered.contact, cut.clipped);
  const dropHeight = heights.drop ?? (run.plan.dropHeightM === null ? undetermined("m", "no drop height on the run sheet and no dropHeight channel") : setHeight(run.plan.dropHeightM, drop.heightUncertainty, signal.run));
  const bound = impactSpeedLimit(dropHeight, run.rig.gravity, impact);
  const check = impulse(signal, events, heights, dropHeight, impact, leaving, change, tolerances.impulse);
  const [fall, contact, air] = ["freeFall", "contact", "flight"].map((kind) => events.segments.find((segment) => segment.kind === kind) ?? null) as [Segment, Segment, Segment | null];
  const measures: Measure[] = [
    measure("impactSpeed", impact, fall),
    measure("reboundSpeed", rebound, contact),
    measure("restitution", adopted.estimate, contact),
    measure("restitutionFromVelocities", fromVelocities, contact),
    measure("restitutionFromFlightTimes", fromFlight, air),
    measure("restitutionFromHeights", heights.restitution, air),
    measure("absorbedShare", absorbedShare(adopted.estimate), contact),
    measure("peakAcceleration", peak, contact),
    measure("pulseDuration", duration, contact),
    measure("velocityChange", change, contact),
    measure("impulseRatio", check.estimate, contact),
    { name: "impactSpeedLimit", label: "Impact speed, upper bound √(2gh)", estimate: bound.estimate, segment: fall },
    ...(heights.impact === null ? [] : [{ name: "impactSpeedFromHeight", label: "Impact speed from height", estimate: heights.impact, segment: fall }]),
    ...(heights.rebound === null ? [] : [{ name: "reboundSpeedFromHeight", label: "Rebound speed from height", estimate: heights.rebound, segment: air }]),
    ...(flight === undefined ? [] : [{ name: "reboundSpeedFromFlight", label: "Rebound speed from flight time", estimate: leaving, segment: air }]),
    ...(cut.clipped ? [] : secondImpact(signal, events, impact)),
  ];
  const mechanics = dropContact(run, drop, signal, events, { impact, rebound, peak, filtered: filtered.contact, reason: filtered.reason, clipped: cut.clipped });
  return { measures: [...measures, ...mechanics.measures], curves: mechanics.curves, findings: [...cut.findings, ...dropBand(signal, events, tolerances.dropBand), ...heights.findings, ...bound.findings, ...adopted.findings, ...filtered.findings, ...check.findings, ...mechanics.findings] };
}

function firstFlightSpeed(signal: DropSignal, events: DropEvents, impact: Estimate<"m/s">, clipped: boolean): Estimate<"m/s"> {
  const flight = events.flights[0];
  if (flight === undefined) return undetermined("m/s", "the wheel did not leave the ground after first touch, or the log ends in the flight");
  const timed = { flight, index: 1, rise: riseOfFlight(signal, events.contacts[0] as Contact, impact) };
  if (!clipped) return flightSpeed(signal, timed);
  return undetermined("m/s", "the acceleration was cut off at the sensor's range, so the height at lift-off is unknown", flightSpeed(signal, { ...timed, rise: estimateFrom(0, "m", "left out", []) }).value);
}

/** e of the second touch, where a second flight shows it. */
function secondImpact(signal: DropSignal, events: DropEvents, impact: Estimate<"m/s">): Measure[] {
  const [first, second] = events.flights;
  if (first === undefined || second === undefined) return [];
  const before = returnSpeed(signal, { flight: first, index: 1, rise: riseOfFlight(signal, events.contacts[0] as Contact, impact) });
  const after = flightSpeed(signal, { flight: second, index: 2, rise: riseOfFlight(signal, events.contacts[1] as Contact, before) });
  const estimate = restitutionFromVelocities(after, before, "lift-off speed of the second flight over return speed of the first, both from flight times and measured deceleration (t₂/t₁ without friction)");
  return [{ name: "restitutionSecondImpact", label: "Restitution of the second impact", estimate, segment: events.segments.filter((segment) => segment.kind === "contact")[1] ?? null }];
}

function impulse(signal: DropSignal, events: DropEvents, heights: HeightReadings, dropHeight: Estimate<"m">, impact: Estimate<"m/s">, leaving: Estimate<"m/s">, change: Estimate<"m/s">, limits: Rig["tolerances"]["impulse"]) {
  if (heights.impact !== null && heights.rebound !== null) return impulseCheck(change, heights.impact, heights.rebound, "the height channel", limits);
  const timed = timedSpeeds(signal, events, dropHeight, impact, leaving);
  return impulseCheck(change, timed.impact, timed.rebound, "drop height and times", limits);
}

/** Samples of the first contact at the end of the sensor's range. */
function clipping(signal: DropSignal, events: DropEvents): { readonly clipped: boolean; readonly findings: readonly Finding[] } {
  if (signal.range === null) return { clipped: false, findings: [finding("range-not-stated", "note", "rig.yaml states no range for hubAcceleration, so a cut-off peak cannot be recognised. State it", { channel: "hubAcceleration" })] };
  const [contact] = events.contacts;
  const fromS = contact?.from.timeS ?? 0;
  const toS = contact?.to?.timeS ?? Infinity;
  const count = samplesAtRange(signal, fromS, toS);
  if (count === 0) return { clipped: false, findings: [] };
  return { clipped: true, findings: [finding("impact-clipped", "reject", `${count} samples of the first contact stand at the end of the accelerometer's range; peak, velocity change and rebound speed are lost. Take a sensor of larger range, or drop from lower, and repeat`, { channel: "hubAcceleration", fromS, toS: Number.isFinite(toS) ? toS : null, measured: count, limit: 0 })] };
}

function decay(signal: DropSignal, events: DropEvents): { readonly measures: readonly Measure[]; readonly fits: readonly Fit[]; readonly findings: readonly Finding[]; readonly segments: readonly Segment[] } {
  const found = decayPeaks(signal, events);
  const first = found.peaks[0];
  const last = found.peaks.at(-1);
  const enough = found.peaks.length >= 3;
  const segment: Segment | null = first === undefined || last === undefined || !enough ? null : { kind: "decay", fromS: first.timeS, toS: last.timeS + found.periodS / 2, reason: `ringing on the ground after the last flight: ${found.peaks.length} peaks of both sides stand clear of the noise` };
  const fitted = dampingByFit(signal, found);
  const character = enough ? decayCharacter(found.peaks.map((peak, k) => ({ cycle: k / 2, size: Math.abs(peak.height), uncertainty: peak.uncertainty }))) : null;
  return {
    measures: [
      measure("dampingRatioDecrement", dampingByDecrement(found, signal.run), segment),
      measure("dampingRatioFit", fitted.ratio, segment),
      measure("dampingRatioHalfPower", dampingByHalfPower(signal, found), segment),
      measure("naturalFrequency", fitted.naturalFrequency, segment),
    ],
    fits: fitted.fit === null ? [] : [{ ...fitted.fit, findings: character?.findings ?? [] }],
    findings: character?.findings.map((one) => ({ ...one, fromS: segment?.fromS ?? null, toS: segment?.toS ?? null })) ?? [],
    segments: segment === null ? [] : [segment],
  };
}
