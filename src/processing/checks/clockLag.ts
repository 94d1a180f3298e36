import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { timeAt } from "../../core/recording.ts";
import { meanOver, slopeOver } from "../conditioning/slope.ts";
import type { RevolutionWindow } from "../conditioning/window.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { timed } from "../rolling.ts";

/** Short means that tell when torque and turning begin [s]. */
const stepS = 0.05;
/** Something has begun when it reaches this share of its steady size. */
const begun = 0.1;
/** Torque that falls below this share of its mean within the middle third of the window is too uneven to tell when it began. */
const steadyShare = 0.5;
/** Torque may come this part of a revolution after the turning, while the ground gives way. */
const givesWay = 1 / 12;

/**
 * Wheel angle and torque, where two loggers record them: the torque must rise when the wheel begins to turn. Torque before
 * turning, or long after it, says that the clocks were brought together wrongly, though both shared events were found.
 */
export function clockLag(run: PreparedRun, window: RevolutionWindow, turningRadS: number, torqueNm: number): Finding[] {
  const angle = timed(run, "wheelAngle", "rad");
  const torque = timed(run, "wheelTorque", "N.m");
  if (angle === null || torque === null || angle.time === torque.time) return [];
  const middleS = (window.segment.fromS + window.segment.toS) / 2;
  const firstS = Math.max(timeAt(angle.time, 0), timeAt(torque.time, 0));
  const spin = (fromS: number): number => slopeOver(angle.time, angle.samples, fromS, fromS + Math.max(stepS, 3.5 * (timeAt(angle.time, 1) - timeAt(angle.time, 0)))).slope / turningRadS;
  const turn = (fromS: number): number => meanOver(torque.time, torque.samples, fromS, fromS + stepS).mean / torqueNm;
  // Torque that swings about zero, as that of a braked wheel may, begins nowhere.
  const sixthS = (window.segment.toS - window.segment.fromS) / 6;
  for (let fromS = middleS - sixthS; fromS < middleS + sixthS; fromS += stepS) if (!(turn(fromS) > steadyShare)) return [];
  // The zero block's scatter must lie well below what counts as begun.
  const quiet = Math.max(...Array.from({ length: 10 }, (_, i) => Math.abs(turn(timeAt(torque.time, 0) + i * stepS))));
  if (!(quiet < begun / 2)) return [];
  const [spinS, turnS] = [beginning(spin, middleS, firstS), beginning(turn, middleS, firstS)];
  if (spinS === null || turnS === null) return [];
  const lagS = turnS - spinS;
  const late = (givesWay * 2 * Math.PI) / Math.abs(turningRadS);
  const off = lagS < 0 ? -lagS : lagS - late;
  const limits = run.rig.tolerances.clockLag;
  if (!(off > limits.look)) return [];
  const severity = off > limits.reject ? "reject" : "look";
  return [finding("clock-lag", severity, `By the common clock the torque begins ${Math.abs(lagS).toFixed(2)} s ${lagS < 0 ? "before" : "after"} the wheel turns. Look whether the same event was marked in both logs, and whether one line runs through a slow relay or filter; repeat with both events`, { channel: "wheelTorque", fromS: Math.min(spinS, turnS), toS: Math.max(spinS, turnS), measured: off, limit: limits[severity] })];
}

/** Walking back from the steady stretch: where the size was last below what counts as begun; null when it never was. */
function beginning(size: (fromS: number) => number, middleS: number, firstS: number): number | null {
  for (let fromS = middleS; fromS >= firstS; fromS -= stepS) if (size(fromS) < begun) return fromS + stepS;
  return null;
}
