import type { Rig } from "../../campaign/rigSchema.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { timeAt } from "../../core/recording.ts";
import type { Channel, Recording, Samples } from "../../core/recording.ts";
import { median } from "../../numerics/statistics.ts";

/** A spike lasts at most this many samples; the median of seven then stands on the true level. */
const longest = 3;
/** Times the usual deviation from that median, in the whole log and nearby, that a spike stands out by (common practice). */
const clear = 15;
/** Samples on either side that count as nearby. */
const nearby = 50;
/** As many samples tell how rough a channel is. */
const judgedSamples = 2000;
/** What rolls and presses is slower than a spike. A shock is not, so that drops are left alone. */
const masked: readonly string[] = ["N", "N.m", "m"];

/**
 * Single wild samples of slow channels count as missing from here on; how many, and where, is said. Nothing is put in their place.
 * A spike leaves the median of its seven neighbours by many times what this channel usually does, in the log and around it.
 */
export function maskSpikes(recording: Recording, rig: Rig): { readonly recording: Recording; readonly findings: readonly Finding[] } {
  const findings: Finding[] = [];
  const counts: Record<string, number> = {};
  const channels = recording.channels.map((channel) => {
    if (!masked.includes(channel.unit)) return channel;
    const spikes = spikesOf(channel.samples);
    if (spikes.length === 0) return channel;
    counts[channel.name] = spikes.length;
    findings.push(said(recording, channel, spikes, rig));
    const samples = Float64Array.from(channel.samples);
    for (const i of spikes) samples[i] = Number.NaN;
    return { ...channel, samples };
  });
  if (findings.length === 0) return { recording, findings };
  return { recording: { ...recording, channels, history: [...recording.history, { name: "maskSpikes", version: "1", parameters: counts }] }, findings };
}

function said(recording: Recording, channel: Channel, spikes: readonly number[], rig: Rig): Finding {
  const share = spikes.length / channel.samples.length;
  const limits = rig.tolerances.spikes;
  const severity = share > limits.reject ? "reject" : "look";
  const times = [spikes[0], spikes.at(-1)].map((i) => timeAt(recording.time, i as number));
  return finding("spikes", severity, `${spikes.length} samples of ${channel.name} jump away and back; they count as missing, and nothing is put in their place. Look for a loose plug, a worn potentiometer or the motor's switching`, { channel: channel.name, fromS: times[0] as number, toS: times[1] as number, measured: share, limit: limits[severity] });
}

/** Indices of the samples that jump away and back. */
export function spikesOf(samples: Samples): number[] {
  const count = samples.length;
  if (count < 4 * longest) return [];
  const away = new Float64Array(count);
  // On a steep ramp the median of seven is the sample itself; how rough the channel is then shows beside its neighbours' middle.
  const rough = new Float64Array(count);
  let quantum = Infinity;
  for (let i = 0; i < count; i++) {
    const value = samples[i] as number;
    away[i] = Math.abs(value - median7(samples, i));
    rough[i] = Math.abs(value - ((samples[i - 1] as number) + (samples[i + 1] as number)) / 2);
    const step = Math.abs(value - (samples[i - 1] as number));
    if (step > 0 && step < quantum) quantum = step;
  }
  const ordinary = (from: number, to: number): number => 1.4826 * Math.max(...[away, rough].map((sizes) => medianOf(sizes.subarray(from, to))));
  const usual = Math.max(ordinary(0, count), quantum);
  if (!Number.isFinite(usual)) return [];
  const spikes: number[] = [];
  for (let i = 0; i < count; i++) {
    if (!((away[i] as number) > clear * usual)) continue;
    if ((away[i] as number) > clear * Math.max(usual, ordinary(Math.max(0, i - nearby), i + nearby + 1)) && returns(samples, i, away[i] as number)) spikes.push(i);
  }
  return spikes;
}

/** Median of what is present, of a long log from samples spread over it; 0 when nothing is. */
function medianOf(sizes: Float64Array): number {
  const stride = Math.max(1, Math.floor(sizes.length / judgedSamples));
  const present: number[] = [];
  for (let i = 0; i < sizes.length; i += stride) if (!Number.isNaN(sizes[i])) present.push(sizes[i] as number);
  return present.length === 0 ? 0 : median(present);
}

/** A spike comes back to where it left; the corner of a step does not. */
function returns(samples: Samples, at: number, away: number): boolean {
  const present = (from: number, to: number): number[] => Array.from(samples.subarray(Math.max(0, from), Math.max(0, to))).filter((value) => !Number.isNaN(value));
  const [before, after] = [present(at - 2 * longest, at), present(at + 1, at + 1 + 2 * longest)];
  return before.length > 0 && after.length > 0 && Math.abs(median(before) - median(after)) < away / 4;
}

/** The middle of seven by exchanges, without an array: this runs once a sample. Network: N. Devillard, 1998, from memory. */
export function middleOfSeven(p0: number, p1: number, p2: number, p3: number, p4: number, p5: number, p6: number): number {
  if (p0 > p5) [p0, p5] = [p5, p0];
  if (p0 > p3) [p0, p3] = [p3, p0];
  if (p1 > p6) [p1, p6] = [p6, p1];
  if (p2 > p4) [p2, p4] = [p4, p2];
  if (p0 > p1) [p0, p1] = [p1, p0];
  if (p3 > p5) [p3, p5] = [p5, p3];
  if (p2 > p6) [p2, p6] = [p6, p2];
  if (p2 > p3) [p2, p3] = [p3, p2];
  if (p3 > p6) [p3, p6] = [p6, p3];
  if (p4 > p5) [p4, p5] = [p5, p4];
  if (p1 > p4) [p1, p4] = [p4, p1];
  if (p1 > p3) [p1, p3] = [p3, p1];
  if (p3 > p4) [p3, p4] = [p4, p3];
  return p3;
}

/** Median of a sample and up to three on either side; what is missing is left out. */
function median7(samples: Samples, at: number): number {
  if (at >= longest && at + longest < samples.length) {
    const middle = middleOfSeven(samples[at - 3] as number, samples[at - 2] as number, samples[at - 1] as number, samples[at] as number, samples[at + 1] as number, samples[at + 2] as number, samples[at + 3] as number);
    // What is missing compares with nothing and would end anywhere; the slow way below leaves it out.
    let whole = true;
    for (let i = at - longest; i <= at + longest; i++) whole &&= !Number.isNaN(samples[i]);
    if (whole) return middle;
  }
  const values: number[] = [];
  for (let i = Math.max(0, at - longest); i <= Math.min(samples.length - 1, at + longest); i++) {
    const value = samples[i] as number;
    if (Number.isNaN(value)) continue;
    // seven at most: put in its place as it comes
    let place = values.length;
    while (place > 0 && (values[place - 1] as number) > value) place--;
    values.splice(place, 0, value);
  }
  const middle = values.length >> 1;
  return values.length % 2 === 1 ? (values[middle] as number) : ((values[middle - 1] as number) + (values[middle] as number)) / 2;
}
