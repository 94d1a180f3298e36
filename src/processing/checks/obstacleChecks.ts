import type { Obstacle } from "../../campaign/campaign.ts";
import type { Estimate } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { Segment } from "../../core/segment.ts";
import type { HubPath } from "../measures/climbOutcome.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { judged, percent } from "./judged.ts";
import { standingChecks } from "./runChecks.ts";

export interface ObstacleRunCheck {
  readonly run: PreparedRun;
  readonly obstacle: Obstacle;
  readonly drive: Segment;
  readonly climbed: Estimate<"1">;
  readonly hub: HubPath | null;
  readonly work: Estimate<"J">;
}

/** Whether zero, signs and sheet of an obstacle run were as described, as far as the run itself tells. */
export function obstacleChecks({ run, obstacle, drive, climbed, hub, work }: ObstacleRunCheck): Finding[] {
  return [...standingChecks(run), ...torqueSign(work, drive), ...(climbed.value === 1 && hub !== null ? heightFindings(run, obstacle, hub) : [])];
}

/** The drive gives work to the wheel over the whole trial; it never gets any back from a floor and a step. */
function torqueSign({ value, standardUncertainty }: Estimate<"J">, drive: Segment): Finding[] {
  const limit = -3 * (standardUncertainty ?? Infinity);
  if (!(value < limit)) return [];
  return [finding("torque-sign", "reject", `Torque over the wheel's angle adds up to ${value.toFixed(2)} J: the wheel would have given work to its drive all the way. Look at the signs of torque and wheel angle in rig.yaml`, { fromS: drive.fromS, toS: drive.toS, channel: "wheelTorque", measured: value, limit })];
}

/** On the hard floor a hub that stays up stands as much higher as the step is high; in soil the wheel's sinkage comes between. */
function heightFindings(run: PreparedRun, { heightM }: Obstacle, { endRiseM, topRiseM }: HubPath): Finding[] {
  if (run.plan.bed !== null || endRiseM < 0.5 * topRiseM) return [];
  const off = Math.abs(endRiseM / heightM - 1);
  return judged("obstacle-height", off, run.rig.tolerances.obstacleHeight, () => `The hub stands ${(1000 * endRiseM).toFixed(1)} mm higher after the climb, ${percent(off)} away from the ${(1000 * heightM).toFixed(1)} mm on the run sheet. Measure the obstacle, and look whether this row is this run's`, { channel: "hubHeight" });
}
