import { sampleCount, timeAt } from "../../core/recording.ts";
import { turningStretch } from "../conditioning/motion.ts";
import { meanOver } from "../conditioning/slope.ts";
import type { Timed } from "../conditioning/window.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { timed } from "../rolling.ts";

/** The wheel stands still on the ground for this long before it starts [s]. */
const standsS = 0.5;
/** Short means that noise does not decide [s]. */
const blockS = 0.1;

/** What happens before the wheel starts: the zero block ends, the wheel hangs, is lowered, stands. null when a channel is missing. */
export interface BeforeStart {
  readonly load: Timed;
  readonly zeroEndS: number;
  readonly startS: number;
  /** mean load standing still just before the start [N] */
  readonly standingLoadN: number;
  /** least load over a short time between the zero block and the start: that of the hanging wheel [N] */
  readonly hangingLoadN: number;
}

export function beforeStart(run: PreparedRun): BeforeStart | null {
  const load = timed(run, "verticalLoad", "N");
  const angle = timed(run, "wheelAngle", "rad");
  if (load === null || angle === null || run.rig.zero === undefined || sampleCount(load.time) === 0) return null;
  const turning = turningStretch(angle.time, angle.samples);
  if (turning === null) return null;
  const zeroEndS = timeAt(load.time, 0) + run.rig.zero.beforeS;
  const startS = turning.fromS;
  if (startS - standsS <= zeroEndS) return null;
  let hangingLoadN = Number.NaN;
  for (let fromS = zeroEndS; fromS + blockS <= startS; fromS += blockS) {
    const { mean, count } = meanOver(load.time, load.samples, fromS, fromS + blockS);
    if (count >= 3 && !(mean >= hangingLoadN)) hangingLoadN = mean;
  }
  return { load, zeroEndS, startS, standingLoadN: meanOver(load.time, load.samples, startS - standsS, startS).mean, hangingLoadN };
}
