import type { WheelRecord } from "../../campaign/campaign.ts";
import { quantities } from "../../campaign/quantities.ts";
import type { Rig } from "../../campaign/rigSchema.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { indexAt, sampleCount, timeAt } from "../../core/recording.ts";
import type { Channel, Doubt, Recording, TimeBase } from "../../core/recording.ts";
import type { Segment } from "../../core/segment.ts";
import { showUnit } from "../../core/units.ts";
import { scaleOf } from "./calibrate.ts";
import { likelyUnit } from "../../core/likelyUnit.ts";
import { significant } from "../../core/significant.ts";
import { effectiveSampleSize, lag1Autocorrelation, mean, standardDeviation } from "../../numerics/statistics.ts";

/** Quantities whose zero is taken with the wheel clear of the ground. */
const zeroed = ["drawbarPull", "verticalLoad", "sideForce", "wheelTorque"] as const;
type Zeroed = (typeof zeroed)[number];

/** By how much of itself a drift may leave its straight line, in the mean over a window. */
const bent = 0.2;
/** A zero needs at least this many samples in each block (common practice). */
const fewestSamples = 10;

interface Block {
  readonly mean: number;
  readonly standardError: number;
  readonly sd: number;
  readonly midS: number;
}

export interface ZeroedRecording {
  readonly recording: Recording;
  readonly findings: readonly Finding[];
  readonly segments: readonly Segment[];
}

/**
 * Forces and torque counted from the zero blocks before and after the run, drift interpolated between them.
 *
 *   F(t) = V(t) − [V₀ + (V₁ − V₀)(t − t₀)/(t₁ − t₀)]
 *
 * The calibration's offset drops out; in its place stands the doubt of the zero: the standard errors of both blocks and
 * the part of the drift that may not be straight. A drift settling exponentially with half the run as its time constant
 * leaves the straight line by 0.23 of the whole at most and by 0.20 in the mean over the middle two thirds of the run, where
 * results are means over a window; so a fifth is taken as the limit of a rectangular distribution. Of the difference of the
 * blocks, their own noise is no drift.
 */
export function zero(recording: Recording, rig: Rig, wheel: WheelRecord | null): ZeroedRecording {
  const wanted = recording.channels.filter((channel) => (zeroed as readonly string[]).includes(channel.name));
  if (rig.zero === undefined || wanted.length === 0) return { recording, findings: [], segments: [] };
  const { time } = recording;
  const first = timeAt(time, 0);
  const last = timeAt(time, sampleCount(time) - 1);
  const before: Segment = { kind: "preZero", fromS: first, toS: first + rig.zero.beforeS, reason: `first ${rig.zero.beforeS} s of the log, as the rig description states` };
  const after: Segment = { kind: "postZero", fromS: last - rig.zero.afterS, toS: last, reason: `last ${rig.zero.afterS} s of the log, as the rig description states` };
  if (before.toS >= after.fromS) {
    const short = finding("zero-missing", "reject", `The log lasts ${(last - first).toFixed(2)} s, shorter than its two zero blocks; forces cannot be zeroed. Repeat the run with both blocks`, { measured: last - first, limit: rig.zero.beforeS + rig.zero.afterS });
    return { recording, findings: [short], segments: [] };
  }
  const findings: Finding[] = [];
  const drifts: Record<string, number> = {};
  const replaced = wanted.map((channel) => {
    const pre = block(channel, time, before);
    const post = block(channel, time, after);
    if (pre === null || post === null) {
      findings.push(finding("zero-missing", "reject", `${quantities[channel.name as Zeroed].label}: fewer than ${fewestSamples} samples in the zero block ${pre === null ? "before" : "after"} the run; it cannot be zeroed. Look for a gap or a dead channel, and repeat`, { channel: channel.name }));
      return channel;
    }
    drifts[driftKey(channel.name)] = post.mean - pre.mean;
    if (channel.name === "verticalLoad") drifts[hangingKey] = pre.mean;
    findings.push(...driftFindings(channel, pre, post, rig));
    if (channel.name === "verticalLoad") findings.push(...weightFinding(pre, rig, wheel, channel.doubt));
    return applied(channel, time, pre, post, rig, wheel);
  });
  const channels = recording.channels.map((channel) => replaced.find((candidate) => candidate.name === channel.name) ?? channel);
  const step = { name: "zero", version: "1", parameters: { state: rig.zero.state, beforeS: rig.zero.beforeS, afterS: rig.zero.afterS, ...drifts } };
  return { recording: { ...recording, channels, history: [...recording.history, step] }, findings, segments: [before, after] };
}

/** Under this key the step "zero" of a recording's history keeps a channel's drift [channel unit]. */
export function driftKey(channel: string): string {
  return `drift of ${channel}`;
}

/** Under this key the step "zero" keeps what the lifted wheel's weight made the load channel read before the run [N]. */
export const hangingKey = "reading of verticalLoad at the first zero";

/** The mean of a zero block; null when too little was recorded there. */
function block(channel: Channel, time: TimeBase, segment: Segment): Block | null {
  const from = indexAt(time, segment.fromS);
  const to = indexAt(time, segment.toS);
  const present = Array.from(channel.samples.subarray(from, to)).filter((value) => !Number.isNaN(value));
  if (present.length < fewestSamples) return null;
  const sd = standardDeviation(present);
  // Neighbouring samples of a filtered amplifier are not independent; negative lags are not credited.
  const count = effectiveSampleSize(present.length, Math.max(0, lag1Autocorrelation(present)));
  return { mean: mean(present), standardError: sd / Math.sqrt(count), sd, midS: (segment.fromS + segment.toS) / 2 };
}

function applied(channel: Channel, time: TimeBase, pre: Block, post: Block, rig: Rig, wheel: WheelRecord | null): Channel {
  const samples = new Float64Array(channel.samples.length);
  const slope = (post.mean - pre.mean) / (post.midS - pre.midS);
  // With nothing on the sensor at zero, the weight below it is missing from the reading.
  const below = channel.name === "verticalLoad" && rig.zero?.state === "sensorBare" ? weightBelow(rig, wheel) : 0;
  for (let i = 0; i < samples.length; i++) {
    samples[i] = (channel.samples[i] as number) - (pre.mean + slope * (timeAt(time, i) - pre.midS)) + below;
  }
  const drift = (bent * Math.sqrt(Math.max(0, (post.mean - pre.mean) ** 2 - pre.standardError ** 2 - post.standardError ** 2))) / Math.sqrt(3);
  const offset = Math.hypot(pre.standardError / 2, post.standardError / 2);
  const doubt: Doubt = { noise: Math.max(pre.sd, post.sd), offset, drift, relativeGain: channel.doubt?.relativeGain ?? 0, calibration: channel.doubt?.calibration ?? "none stated" };
  return { ...channel, samples, doubt: channel.doubt === null ? null : doubt };
}

export function weightBelow(rig: Rig, wheel: WheelRecord | null): number {
  return ((rig.massBelowSensor ?? 0) + (wheel?.massKg ?? 0)) * rig.gravity;
}

function driftFindings(channel: Channel, pre: Block, post: Block, rig: Rig): Finding[] {
  const range = channelRange(channel.name as Zeroed, rig);
  if (range === null) return [];
  const drift = Math.abs(post.mean - pre.mean);
  const share = drift / range;
  const limits = rig.tolerances.zeroDriftOfRange;
  if (share <= limits.look) return [];
  const severity = share > limits.reject ? "reject" : "look";
  const label = quantities[channel.name as Zeroed].label;
  return [
    finding("zero-drift", severity, `${label}: the zero moved by ${significant(drift, 3)} ${showUnit(channel.unit)} between the blocks before and after the run, ${(100 * share).toFixed(2)} % of the range. Look for a warm sensor, a knock or soil on the wheel, and repeat`, {
      channel: channel.name,
      measured: share,
      limit: limits[severity === "reject" ? "reject" : "look"],
    }),
  ];
}

/** Full scale of a zeroed quantity, from the six-axis sensor or the channel's own range; null = not stated. */
export function channelRange(name: Zeroed, rig: Rig): number | null {
  const assigned = rig.sixAxis?.gives[name];
  if (rig.sixAxis !== undefined && assigned !== undefined) {
    const index = ["forceX", "forceY", "forceZ", "momentX", "momentY", "momentZ"].indexOf(assigned.output);
    return rig.sixAxis.range[index] ?? null;
  }
  for (const logger of Object.values(rig.loggers)) {
    const description = logger.channels[name];
    if (description?.range !== undefined) return Math.max(...description.range.map(Math.abs)) * scaleOf(name, description, rig).factor;
  }
  return null;
}

/** The lifted wheel weighs what its record says: finds another wheel's file, soil carried along, a wrong mass. */
function weightFinding(pre: Block, rig: Rig, wheel: WheelRecord | null, doubt: Doubt | null): Finding[] {
  const range = channelRange("verticalLoad", rig);
  if (rig.zero?.state !== "wheelLifted" || wheel === null || doubt === null || range === null) return [];
  const expected = -weightBelow(rig, wheel);
  const limit = Math.max(5 * doubt.offset, rig.tolerances.zeroDriftOfRange.look * range);
  const off = Math.abs(pre.mean - expected);
  if (off <= limit) return [];
  return [
    finding("wheel-weight", "look", `The lifted wheel ${wheel.id} should hang with ${(-expected).toFixed(1)} N on the sensor; it reads ${(-pre.mean).toFixed(1)} N. Look whether this is that wheel's file, whether soil sticks to it, and whether its mass is right in wheels.csv.${likelyUnit(pre.mean / expected, "force")}`, { channel: "verticalLoad", measured: off, limit }),
  ];
}
