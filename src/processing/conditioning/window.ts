import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { indexAt, timeAt } from "../../core/recording.ts";
import type { Samples, TimeBase } from "../../core/recording.ts";
import type { Segment } from "../../core/segment.ts";
import { crossing, turningStretch } from "./motion.ts";
import { medianInterval } from "./risingTime.ts";
import { meanOver } from "./slope.ts";

/** A channel with the clock it stands on. */
export interface Timed {
  readonly time: TimeBase;
  readonly samples: Samples;
}

export interface WindowInput {
  readonly angle: Timed;
  /** null = the wheel does not travel (free spin) */
  readonly position: Timed | null;
  readonly wheelDiameterM: number;
  /** channels that must be there in every revolution */
  readonly needed: readonly Timed[];
  readonly settlingDiameters: number;
  readonly endDiameters: number;
  readonly fewest: { readonly look: number; readonly reject: number };
}

/** Whole wheel revolutions: N + 1 times at which the same point of the wheel came round. */
export interface RevolutionWindow {
  readonly boundariesS: readonly number[];
  readonly segment: Segment;
}

/** Fewer samples of the angle in a revolution cannot show where it ends (common practice). */
const fewestPerRevolution = 8;
/** Share of a revolution's samples that must be present. */
const completeShare = 0.98;

/**
 * The steady window of a rolling run: as many whole revolutions as fit between the settling travel and the end of the bed.
 *
 * Cut on the wheel's angle, not on time: a once-per-revolution ripple of amplitude A, averaged over N + ½ turns, biases the
 * mean by up to A / (π(N + ½)). The revolutions end at the end of the usable stretch, where the wheel has settled longest;
 * a revolution that a gap touches is refused. Nothing here looks at the pull.
 */
export function revolutionWindow(input: WindowInput): { readonly window: RevolutionWindow | null; readonly findings: readonly Finding[] } {
  const { angle, position } = input;
  const turning = turningStretch(angle.time, angle.samples);
  if (turning === null) return { window: null, findings: [finding("no-motion", "reject", "The wheel does not turn in this log; there is nothing to average. Look at the encoder, and repeat", { channel: "wheelAngle" })] };
  const usable = position === null ? { fromS: turning.fromS + 0.5, toS: turning.toS - 0.5, reason: "half a second after the start and before the stop left out" } : usableTravel(position, turning, input);
  if (usable === null) return { window: null, findings: [finding("travel-short", "reject", "The carriage travels less than the settling and end zones together; nothing steady is left. Repeat over the whole bed", { channel: "carriagePosition" })] };
  const perRevolution = samplesPerRevolution(angle, usable.fromS, usable.toS);
  if (perRevolution < fewestPerRevolution) {
    const message = `The wheel angle is recorded ${perRevolution.toPrecision(2)} times a revolution, fewer than ${fewestPerRevolution}; whole revolutions cannot be told. Look at the encoder's counts and gear in rig.yaml, and at the logger's rate`;
    return { window: null, findings: [finding("angle-too-coarse", "reject", message, { channel: "wheelAngle", measured: perRevolution, limit: fewestPerRevolution })] };
  }
  const boundaries = wholeRevolutions(angle, usable.fromS, usable.toS);
  const complete = longestComplete(boundaries, input.needed);
  const count = Math.max(0, complete.length - 1);
  const findings: Finding[] = [];
  if (complete.length < boundaries.length) {
    findings.push(finding("revolutions-refused", "look", `${boundaries.length - complete.length} of ${boundaries.length - 1} revolutions hold gaps or missing samples and were refused; the longest complete stretch is used`, { measured: count, limit: boundaries.length - 1 }));
  }
  if (count < input.fewest.look) {
    const severity = count < input.fewest.reject ? "reject" : "look";
    findings.push(finding("few-revolutions", severity, `Only ${count} whole revolution${count === 1 ? " lies" : "s lie"} in the steady window; with so few the mean carries ripple and the scatter says little. Use a longer bed or a slower carriage`, { measured: count, limit: input.fewest[severity] }));
  }
  if (count < 1) return { window: null, findings };
  const segment: Segment = { kind: "steady", fromS: complete[0] as number, toS: complete[count] as number, reason: `${count} whole revolutions; ${usable.reason}` };
  return { window: { boundariesS: complete, segment }, findings };
}

function usableTravel(position: Timed, turning: { fromS: number; toS: number }, input: WindowInput): { fromS: number; toS: number; reason: string } | null {
  const { time, samples } = position;
  const from = indexAt(time, turning.fromS);
  const to = indexAt(time, turning.toS);
  const rest = Math.min(0.2, (turning.toS - turning.fromS) / 10);
  const start = meanOver(time, samples, turning.fromS - rest, turning.fromS).mean;
  const end = meanOver(time, samples, turning.toS, turning.toS + rest).mean;
  const startX = Number.isNaN(start) ? (samples[from] as number) : start;
  const endX = Number.isNaN(end) ? (samples[to - 1] as number) : end;
  const direction = Math.sign(endX - startX);
  const settling = input.settlingDiameters * input.wheelDiameterM;
  const ending = input.endDiameters * input.wheelDiameterM;
  if (Math.abs(endX - startX) <= settling + ending) return null;
  const fromS = crossing(time, samples, startX + direction * settling, from, to);
  const toS = crossing(time, samples, endX - direction * ending, from, to);
  if (!(toS > fromS)) return null;
  return { fromS, toS, reason: `${settling.toFixed(3)} m after the start and ${ending.toFixed(3)} m before the end of travel left out (${input.settlingDiameters} and ${input.endDiameters} wheel diameters)` };
}

function samplesPerRevolution(angle: Timed, fromS: number, toS: number): number {
  const from = indexAt(angle.time, fromS);
  const to = indexAt(angle.time, toS);
  return (to - from) / (Math.abs((angle.samples[to - 1] as number) - (angle.samples[from] as number)) / (2 * Math.PI));
}

/** Times at which the wheel completed each of the last whole turns before `toS`. */
function wholeRevolutions(angle: Timed, fromS: number, toS: number): number[] {
  const from = indexAt(angle.time, fromS);
  const to = indexAt(angle.time, toS);
  const last = angle.samples[to - 1] as number;
  const first = angle.samples[from] as number;
  const direction = Math.sign(last - first);
  const turns = Math.floor(Math.abs(last - first) / (2 * Math.PI));
  const boundaries = [timeAt(angle.time, to - 1)];
  for (let turn = 1; turn <= turns; turn++) {
    const at = crossing(angle.time, angle.samples, last - direction * turn * 2 * Math.PI, from, to);
    if (Number.isNaN(at)) break;
    boundaries.unshift(at);
  }
  return boundaries;
}

function longestComplete(boundaries: readonly number[], needed: readonly Timed[]): number[] {
  const good = boundaries.slice(1).map((toS, i) => needed.every((timed) => isComplete(timed, boundaries[i] as number, toS)));
  let best: [number, number] = [0, 0];
  let from = 0;
  for (let i = 0; i <= good.length; i++) {
    if (good[i]) continue;
    if (i - from > best[1] - best[0]) best = [from, i];
    from = i + 1;
  }
  return boundaries.slice(best[0], best[1] + 1);
}

function isComplete(timed: Timed, fromS: number, toS: number): boolean {
  const expected = (toS - fromS) / medianInterval(timed.time);
  return meanOver(timed.time, timed.samples, fromS, toS).count >= completeShare * expected - 1;
}
