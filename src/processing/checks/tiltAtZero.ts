import type { Finding } from "../../core/finding.ts";
import type { Segment } from "../../core/segment.ts";
import { sampleCount, timeAt } from "../../core/recording.ts";
import { meanOver } from "../conditioning/slope.ts";
import { weightBelow } from "../conditioning/zero.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { timed } from "../rolling.ts";
import { judged } from "./judged.ts";

/** A zero taken at another tilt than the run leaves part of the weight below the sensor in the pull: m·g·(sin α − sin α₀). */
export function tiltAtZero(run: PreparedRun, window: Segment, loadN: number): Finding[] {
  const tilt = timed(run, "tilt", "rad");
  const { zero } = run.rig;
  if (tilt === null || zero === undefined) return [];
  const first = timeAt(tilt.time, 0);
  const last = timeAt(tilt.time, sampleCount(tilt.time) - 1);
  const sine = (fromS: number, toS: number): number => Math.sin(meanOver(tilt.time, tilt.samples, fromS, toS).mean);
  const atZero = (sine(first, first + zero.beforeS) + sine(last - zero.afterS, last)) / 2;
  const bias = Math.abs(sine(window.fromS, window.toS) - atZero) * weightBelow(run.rig, run.wheel);
  return judged("tilt-at-zero", bias / Math.abs(loadN), run.rig.tolerances.tiltBias, () => `The carriage stood at another tilt during the zero than during the run: ${bias.toFixed(2)} N of the weight below the sensor are left in the pull. Describe tare in rig.yaml, which takes them off, or take the zero at the attitude of the run and repeat`, { channel: "drawbarPull", fromS: window.fromS, toS: window.toS });
}
