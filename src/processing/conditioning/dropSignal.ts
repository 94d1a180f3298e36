import type { RigChannel } from "../../campaign/rigSchema.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { sampleCount, timeAt } from "../../core/recording.ts";
import type { Doubt, Recording, TimeBase } from "../../core/recording.ts";
import type { Segment } from "../../core/segment.ts";
import { conversion } from "../../core/units.ts";
import { effectiveSampleSize, lag1Autocorrelation, mean, median, standardDeviation } from "../../numerics/statistics.ts";
import { find } from "../preparedRun.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { movingMean } from "./movingMean.ts";
import { firstFall } from "./firstFall.ts";

/** Rest left out just before the release [s]: the hand or the magnet is already at work. */
const guardS = 0.01;
/** Largest share of the local gravity that the noise may keep after smoothing for detection. */
const quietShare = 0.02;
/** Longest smoothing for detection [s]. */
const longestSmoothingS = 0.002;

/** Height of the hub above first touch, on its own time base. */
export interface HeightSignal {
  readonly timesS: Float64Array;
  readonly values: Float64Array;
  readonly doubt: Doubt | null;
}

/** The hub acceleration of a drop, counted from the rest before release, and what its zero and noise are worth. */
export interface DropSignal {
  readonly run: string;
  readonly gravity: number;
  readonly timesS: Float64Array;
  /** 0 at rest, −g in free fall, positive in contact [m/s²] */
  readonly acceleration: Float64Array;
  /** the same, smoothed just enough for detection */
  readonly smooth: Float64Array;
  /** standard deviation of one smoothed sample at rest [m/s²] */
  readonly smoothNoise: number;
  readonly smoothingS: number;
  /** ∫a dt and ∫∫a dt² from the end of the rest [m/s], [m]; NaN from the first missing sample on */
  readonly speed: Float64Array;
  readonly path: Float64Array;
  readonly intervalS: number;
  /** whether all sampling intervals are alike, as a recursive filter needs */
  readonly even: boolean;
  readonly rest: Segment;
  /** standard deviation of one sample at rest [m/s²] and the correlation of neighbours */
  readonly noise: number;
  readonly lag1: number;
  /** standard uncertainty of the zero from the rest [m/s²] */
  readonly zeroUncertainty: number;
  readonly zeroDegreesOfFreedom: number;
  /** mean of the rest after the drop, and its standard uncertainty; null where the log ends before rest returns */
  readonly after: { readonly mean: number; readonly uncertainty: number } | null;
  readonly doubt: Doubt | null;
  /** the sensor's range on this zero [m/s²]; null = not stated */
  readonly range: readonly [number, number] | null;
  readonly height: HeightSignal | null;
}

export interface DropSignalResult {
  /** null when the log holds no drop; the findings say why */
  readonly signal: DropSignal | null;
  readonly findings: readonly Finding[];
}

/** The acceleration zeroed by the rest before release: the accelerometer's own zero and, for one that feels gravity, gravity drop out. */
export function dropSignal(run: PreparedRun): DropSignalResult {
  const found = find(run, "hubAcceleration", "m/s2");
  const { drop, gravity } = run.rig;
  if (found === null) return none(finding("no-acceleration", "reject", "No logger recorded hubAcceleration in this run; a drop is measured from it"));
  if (drop === undefined) return none(finding("no-drop-description", "reject", "rig.yaml has no part `drop` (filterClass, filterStandard, restS, carriageMass); nothing about a drop is assumed. Add it"));
  const raw = Float64Array.from(found.channel.samples);
  const timesS = times(found.time);
  if (raw.length < 100) return none(finding("no-drop", "reject", `The log holds ${raw.length} samples of hubAcceleration, too few for a drop`, { channel: "hubAcceleration" }));
  const intervalS = ((timesS[raw.length - 1] as number) - (timesS[0] as number)) / (raw.length - 1);
  const opening = present(raw.subarray(0, Math.max(10, Math.round(Math.min(drop.restS / intervalS, raw.length / 10)))));
  if (opening.length === 0) return none(finding("rest-missing", "reject", "The log begins with missing samples of hubAcceleration only; the acceleration has no zero", { channel: "hubAcceleration" }));
  const coarse = centred(raw, median(opening));
  const fall = firstFall(movingMean(coarse, Math.round(longestSmoothingS / intervalS / 2)), timesS, gravity);
  if (fall === null) return none(finding("no-release", "reject", `hubAcceleration never falls towards −${gravity.toFixed(2)} m/s² for 10 ms or more, so no release was found. Look at the sign of the channel, its calibration, and whether the trigger was set before the release`, { channel: "hubAcceleration" }));
  const toS = fall - guardS;
  const rest: Segment = { kind: "preZero", fromS: Math.max(timesS[0] as number, toS - drop.restS), toS, reason: `rest of ${drop.restS} s before the release, less ${guardS * 1000} ms; zero of the acceleration` };
  const length = rest.toS - rest.fromS;
  if (length < 0.5 * drop.restS) return none(finding("rest-too-short", "reject", `The log holds ${Math.max(0, length).toFixed(3)} s of rest before the release; rig.yaml states ${drop.restS} s. Without it the acceleration has no zero. Start the log earlier`, { measured: length, limit: drop.restS, channel: "hubAcceleration" }));
  const block = restBlock(raw, timesS, rest.fromS, rest.toS);
  if (block === null) return none(finding("rest-missing", "reject", "The rest before the release holds missing samples only; the acceleration has no zero", { channel: "hubAcceleration" }));
  // A zero taken earlier in the chain stays; it must not be taken twice.
  const level = zeroedBefore(run.recordings) ? 0 : block.mean;
  const acceleration = centred(raw, level);
  const half = Math.ceil(((block.noise / (quietShare * gravity)) ** 2 - 1) / 2);
  const smoothing = Math.max(0, Math.min(half, Math.floor(longestSmoothingS / intervalS / 2)));
  const smooth = movingMean(acceleration, smoothing);
  const { speed, path } = integrals(acceleration, timesS, rest.toS);
  const signal: DropSignal = {
    run: run.plan.id, gravity, timesS, acceleration, smooth, speed, path, intervalS, rest,
    smoothNoise: block.noise / Math.sqrt(smoothing === 0 ? 1 : effectiveSampleSize(2 * smoothing + 1, block.lag1)),
    smoothingS: smoothing === 0 ? 0 : (2 * smoothing + 1) * intervalS,
    even: isEven(timesS, intervalS),
    noise: block.noise, lag1: block.lag1, zeroUncertainty: block.uncertainty, zeroDegreesOfFreedom: block.degreesOfFreedom,
    after: restAfter(acceleration, timesS, fall, length, block.noise),
    doubt: found.channel.doubt,
    range: range(run, level),
    height: heightSignal(run),
  };
  return { signal, findings: signalFindings(signal, acceleration) };
}

function none(reason: Finding): DropSignalResult {
  return { signal: null, findings: [reason] };
}

function times(time: TimeBase): Float64Array {
  return Float64Array.from({ length: sampleCount(time) }, (_, i) => timeAt(time, i));
}

function present(samples: Float64Array): Float64Array {
  return samples.filter((value) => !Number.isNaN(value));
}

function centred(samples: Float64Array, level: number): Float64Array {
  return samples.map((value) => value - level);
}

function restBlock(samples: Float64Array, timesS: Float64Array, fromS: number, toS: number) {
  const values = present(samples.filter((_, i) => (timesS[i] as number) >= fromS && (timesS[i] as number) < toS));
  if (values.length < 10) return null;
  const sd = standardDeviation(values);
  // A rest without any spread is the converter's step, not silence.
  const noise = sd > 0 ? sd : smallestStep(samples) / Math.sqrt(12);
  const lag1 = sd > 0 ? Math.min(0.999, Math.max(0, lag1Autocorrelation(values))) : 0;
  const count = Math.max(2, effectiveSampleSize(values.length, lag1));
  return { mean: mean(values), noise, lag1, uncertainty: noise / Math.sqrt(count), degreesOfFreedom: count - 1 };
}

function smallestStep(samples: Float64Array): number {
  let step = Infinity;
  for (let i = 1; i < samples.length; i++) {
    const size = Math.abs((samples[i] as number) - (samples[i - 1] as number));
    if (size > 0 && size < step) step = size;
  }
  return Number.isFinite(step) ? step : 0;
}

/** The last stretch of the log as long as the rest, if it is as quiet as the rest was; its halves tell whether it has settled. */
function restAfter(acceleration: Float64Array, timesS: Float64Array, fallS: number, length: number, noise: number) {
  const endS = timesS[timesS.length - 1] as number;
  const fromS = endS - length;
  if (fromS < fallS) return null;
  const block = restBlock(acceleration, timesS, fromS, Infinity);
  const early = restBlock(acceleration, timesS, fromS, endS - length / 2);
  const late = restBlock(acceleration, timesS, endS - length / 2, Infinity);
  if (block === null || early === null || late === null || block.noise > 1.2 * noise) return null;
  return { mean: block.mean, uncertainty: Math.max(block.uncertainty, Math.abs(early.mean - late.mean) / 2) };
}

function integrals(acceleration: Float64Array, timesS: Float64Array, fromS: number): { speed: Float64Array; path: Float64Array } {
  const n = acceleration.length;
  const speed = new Float64Array(n);
  const path = new Float64Array(n);
  for (let i = 1; i < n; i++) {
    if ((timesS[i - 1] as number) < fromS) continue;
    const step = (timesS[i] as number) - (timesS[i - 1] as number);
    const a = acceleration[i - 1] as number;
    const b = acceleration[i] as number;
    speed[i] = (speed[i - 1] as number) + ((a + b) / 2) * step;
    // Exact for an acceleration that runs straight between samples.
    path[i] = (path[i - 1] as number) + (speed[i - 1] as number) * step + ((2 * a + b) / 6) * step * step;
  }
  return { speed, path };
}

function isEven(timesS: Float64Array, intervalS: number): boolean {
  for (let i = 1; i < timesS.length; i++) if (Math.abs((timesS[i] as number) - (timesS[i - 1] as number) - intervalS) > 0.05 * intervalS) return false;
  return true;
}

function zeroedBefore(recordings: readonly Recording[]): boolean {
  const recording = recordings.find((candidate) => candidate.channels.some((channel) => channel.name === "hubAcceleration"));
  return recording?.history.some((step) => step.name === "zero" && Object.entries(step.parameters).some((entry) => entry.map(String).join(" ").includes("hubAcceleration"))) ?? false;
}

function describedChannel(run: PreparedRun, name: string): RigChannel | undefined {
  return Object.values(run.rig.loggers).find((logger) => logger.kinds.includes("drop") && Object.hasOwn(logger.channels, name))?.channels[name];
}

function range(run: PreparedRun, level: number): readonly [number, number] | null {
  const description = describedChannel(run, "hubAcceleration");
  if (description?.range === undefined) return null;
  const { factor, summand } = conversion(description.calibration?.gives ?? description.unit, "m/s2");
  const ends = description.range.map((end) => (description.sign ?? 1) * (end * factor + summand) - level);
  return [Math.min(...ends), Math.max(...ends)];
}

function heightSignal(run: PreparedRun): HeightSignal | null {
  const found = find(run, "dropHeight", "m");
  return found === null ? null : { timesS: times(found.time), values: Float64Array.from(found.channel.samples), doubt: found.channel.doubt };
}

function signalFindings(signal: DropSignal, acceleration: Float64Array): Finding[] {
  const findings: Finding[] = [];
  if (signal.doubt === null) findings.push(finding("no-stated-uncertainty", "look", "rig.yaml states no uncertainty for hubAcceleration; speeds and accelerations carry none for its calibration. State it", { channel: "hubAcceleration" }));
  if (signal.after !== null) {
    const shift = signal.after.mean;
    const limit = Math.max(0.01 * signal.gravity, 4 * Math.hypot(signal.after.uncertainty, signal.zeroUncertainty));
    if (Math.abs(shift) > limit) findings.push(finding("zero-shift", "look", `After the drop the acceleration rests at ${shift.toFixed(3)} m/s² instead of 0: the accelerometer's zero moved, or the hub rests at another tilt. Look at its mounting and range`, { channel: "hubAcceleration", measured: Math.abs(shift), limit }));
  }
  let missing = 0;
  for (const value of acceleration) if (Number.isNaN(value)) missing++;
  if (missing > 0) findings.push(finding("missing-in-drop", "look", `${missing} samples of hubAcceleration are missing. Nothing is filled in: no speed is taken across them`, { channel: "hubAcceleration", measured: missing, limit: 0 }));
  return findings;
}
