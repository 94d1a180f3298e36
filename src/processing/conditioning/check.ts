import type { Rig } from "../../campaign/rigSchema.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { sampleCount, timeAt } from "../../core/recording.ts";
import type { Channel, Recording } from "../../core/recording.ts";
import { flatTop } from "./flatTop.ts";
import { repeatedRows } from "./repeatedRows.ts";
import { medianInterval } from "./risingTime.ts";

/** A channel is stuck when its value stands this long [s], over this many samples, while it normally changes with each. */
const stuckS = 0.5;
const stuckSamples = 25;

/** Faults that show in a log by itself: pauses, missing samples, rows written twice, a channel that stands still, flat tops. */
export function check(recording: Recording, logger: string, rig: Rig): Finding[] {
  return [...gaps(recording, logger, rig), ...repeatedRows(recording, logger), ...recording.channels.flatMap((channel) => [...missing(channel, rig), ...stuck(recording, channel), ...flatTop(recording, channel)])];
}

function gaps(recording: Recording, logger: string, rig: Rig): Finding[] {
  if (recording.time.kind === "uniform") return [];
  const interval = medianInterval(recording.time);
  const limits = rig.tolerances.gapSamples;
  const found: Finding[] = [];
  const count = sampleCount(recording.time);
  for (let i = 1; i < count; i++) {
    const before = timeAt(recording.time, i - 1);
    const step = timeAt(recording.time, i) - before;
    if (step <= limits.look * interval) continue;
    // The window decides whether a pause matters; here it is only named.
    found.push(finding("gap", "look", `Logger ${logger} paused for ${step.toFixed(3)} s (${Math.round(step / interval) - 1} samples missing). Nothing is filled in`, { fromS: before, toS: before + step, measured: step / interval, limit: limits.look }));
    if (found.length >= 20) break;
  }
  return found;
}

function missing(channel: Channel, rig: Rig): Finding[] {
  let count = 0;
  for (let i = 0; i < channel.samples.length; i++) if (Number.isNaN(channel.samples[i])) count++;
  const share = count / Math.max(1, channel.samples.length);
  const limits = rig.tolerances.missingShare;
  if (share <= limits.look) return [];
  const severity = share > limits.reject ? "reject" : "look";
  return [finding("missing-samples", severity, `${channel.name}: ${count} of ${channel.samples.length} samples are missing`, { channel: channel.name, measured: share, limit: limits[severity] })];
}

/** Longest stretch of one unchanged value, held against the channel's own habit of changing. */
function stuck(recording: Recording, channel: Channel): Finding[] {
  // Positions and angles rest when the rig rests; only channels that carry noise at all times are judged.
  if (channel.unit === "V" || channel.unit === "m" || channel.unit === "rad") return [];
  const { samples } = channel;
  let longest = 0;
  let longestEnd = 0;
  let runLength = 1;
  let changes = 0;
  for (let i = 1; i < samples.length; i++) {
    if (samples[i] === samples[i - 1]) runLength++;
    else {
      changes++;
      runLength = 1;
    }
    if (runLength > longest) {
      longest = runLength;
      longestEnd = i;
    }
  }
  const interval = medianInterval(recording.time);
  // A quantity that normally changes with nearly every sample cannot stand still for long.
  const lively = changes > 0.5 * samples.length;
  if (!lively || longest * interval < stuckS || longest < stuckSamples) return [];
  const toS = timeAt(recording.time, longestEnd);
  return [finding("stuck", "reject", `${channel.name} stands at one value for ${(longest * interval).toFixed(2)} s. Look for a loose plug or a held converter, and repeat`, { channel: channel.name, fromS: toS - longest * interval, toS, measured: longest * interval, limit: stuckS })];
}
