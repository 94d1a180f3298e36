import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { timeAt } from "../../core/recording.ts";
import type { Channel, Recording } from "../../core/recording.ts";

/** So many samples in a row at one and the same extreme are no chance in a channel that changes with each (common practice). */
const inARow = 5;
/** A channel is lively when this share of its samples, away from its extremes, differs from the one before. */
const livelyShare = 0.8;
/** Positions, angles and switch lines rest at their ends. */
const restful: readonly string[] = ["V", "m", "rad"];

/** A converter or amplifier that ends before the range stated in rig.yaml: the channel's own greatest or least value, held. */
export function flatTop(recording: Recording, channel: Channel): Finding[] {
  if (restful.includes(channel.unit)) return [];
  const { samples } = channel;
  let high = -Infinity;
  let low = Infinity;
  for (let i = 0; i < samples.length; i++) {
    const value = samples[i] as number;
    if (value > high) high = value;
    if (value < low) low = value;
  }
  const held = [
    { ...heldAt(samples, high), end: "top" },
    { ...heldAt(samples, low), end: "bottom" },
  ].filter(({ longest }) => longest >= inARow);
  const worst = held.sort((a, b) => b.count - a.count)[0];
  if (worst === undefined || !lively(samples, low, high)) return [];
  const toS = timeAt(recording.time, worst.last);
  const fromS = timeAt(recording.time, worst.last - worst.longest + 1);
  return [finding("flat-top", "reject", `${channel.name} is cut off at its ${worst.end}: ${worst.count} samples hold its very ${worst.end === "top" ? "greatest" : "least"} value, ${worst.longest} of them in a row, though it changes with every sample elsewhere. The true value was beyond. Lower the gain, look at range in rig.yaml, and repeat`, { channel: channel.name, fromS, toS, measured: worst.longest, limit: inARow })];
}

function heldAt(samples: Channel["samples"], extreme: number): { readonly count: number; readonly longest: number; readonly last: number } {
  let count = 0;
  let row = 0;
  let longest = 0;
  let last = -1;
  for (let i = 0; i < samples.length; i++) {
    row = samples[i] === extreme ? row + 1 : 0;
    if (row > 0) count++;
    if (row > longest) [longest, last] = [row, i];
  }
  return { count, longest, last };
}

function lively(samples: Channel["samples"], low: number, high: number): boolean {
  let pairs = 0;
  let changes = 0;
  const extreme = (value: number): boolean => value === low || value === high || Number.isNaN(value);
  for (let i = 1; i < samples.length; i++) {
    const [before, value] = [samples[i - 1] as number, samples[i] as number];
    if (extreme(before) || extreme(value)) continue;
    pairs++;
    if (before !== value) changes++;
  }
  return pairs >= 50 && changes > livelyShare * pairs;
}
