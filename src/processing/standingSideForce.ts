import { estimateFrom } from "../core/estimate.ts";
import type { BudgetRow } from "../core/estimate.ts";
import type { Measure } from "../core/measure.ts";
import type { Segment } from "../core/segment.ts";
import { mean, standardDeviation } from "../numerics/statistics.ts";
import { turningStretch } from "./conditioning/motion.ts";
import { meanOver } from "./conditioning/slope.ts";
import { find } from "./preparedRun.ts";
import type { PreparedRun } from "./preparedRun.ts";
import { doubtRows, timed } from "./rolling.ts";

/** The wheel stands loaded and still for this long before it starts [s]. */
const standingS = 0.5;
const blocks = 5;

/** Side force under load before the wheel turns; beside the running one it tells toe from cross-talk. */
export function standingSideForce(run: PreparedRun): Measure[] {
  const side = find(run, "sideForce", "N");
  const angle = timed(run, "wheelAngle", "rad");
  const turning = angle === null ? null : turningStretch(angle.time, angle.samples);
  if (side === null || turning === null) return [];
  const segment: Segment = { kind: "static", fromS: turning.fromS - standingS, toS: turning.fromS, reason: `${standingS} s of standing before the wheel starts` };
  const parts = Array.from({ length: blocks }, (_, i) => meanOver(side.time, side.channel.samples, segment.fromS + (i * standingS) / blocks, segment.fromS + ((i + 1) * standingS) / blocks).mean);
  const value = mean(parts);
  const noise: BudgetRow = { cause: `noise of the side force while standing, ${run.plan.id}`, effect: standardDeviation(parts) / Math.sqrt(blocks), sharedBy: null, degreesOfFreedom: blocks - 1 };
  return [{ name: "sideForceStanding", label: "Side force, standing", estimate: estimateFrom(value, "N", "mean while the loaded wheel stands before the start", [...doubtRows(side.channel, value, run.plan.id, true), noise]), segment }];
}
