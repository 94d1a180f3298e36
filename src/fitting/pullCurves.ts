import type { Rig } from "../campaign/rigSchema.ts";
import type { Finding } from "../core/finding.ts";
import type { FitPoint } from "../core/fit.ts";
import { finding } from "../core/finding.ts";
import { groupBy } from "../core/groupBy.ts";
import type { PullCurve, RunResult } from "../processing/dayResult.ts";
import { pullAt, pullBand, pullSlipFit } from "./pullSlipFit.ts";
import type { PullPoint } from "./pullSlipFit.ts";
import { barred, measureOf, refusedPoint } from "./refusedPoint.ts";

/**
 * One pull–slip curve per wheel and set load, over the traction runs of the day. Rejected, excluded and unread runs
 * appear as refused points with the reason; so do braked runs, whose skid is normalised by the other speed.
 *
 * @param runs   all runs of the day
 * @param rig    says at which slips the pull is reported
 * @returns      curves in order of first appearance on the run sheet
 * @source       common practice
 * @checked      tests/fitting/pullCurves.test.ts
 */
export function pullCurvesFrom(runs: readonly RunResult[], rig: Rig): PullCurve[] {
  const traction = runs.filter((run) => run.plan.kind === "traction" && run.plan.wheel !== null && run.plan.setLoadN !== null);
  const groups = groupBy(traction, (run) => `${run.plan.setLoadN} N, ${run.plan.wheel}`);
  return [...groups.values()].map((group): PullCurve => {
    const points: PullPoint[] = [];
    const refused: FitPoint[] = [];
    for (const run of group) {
      const point = toPoint(run);
      if ("kept" in point) refused.push(point);
      else points.push(point);
    }
    const bare = pullSlipFit(points, refused);
    const fit = { ...bare, findings: [...bare.findings, ...mixed(group, points)] };
    const atSlip = rig.reportPullAtSlip.map((slip) => ({ slip, estimate: pullAt(fit, slip) }));
    const first = group[0] as RunResult;
    return { wheel: first.plan.wheel as string, setLoadN: first.plan.setLoadN as number, fit, band: pullBand(fit), atSlip };
  });
}

function toPoint(run: RunResult): PullPoint | FitPoint {
  const slip = measureOf(run, "slip");
  const skid = measureOf(run, "skid");
  const pull = measureOf(run, "pullCoefficient");
  const refuse = (reason: string): FitPoint => refusedPoint(run, slip?.estimate.value ?? (skid === null ? run.plan.setSlip : -Math.abs(skid.estimate.value)), pull?.estimate.value, reason);
  const reason = barred(run);
  if (reason !== null) return refuse(reason);
  if (slip === null && skid !== null) return refuse("braked: skid is normalised by the carriage speed and follows another curve");
  if (slip === null || pull === null) return refuse(`no ${slip === null ? "slip" : "pull coefficient"} was measured`);
  for (const measure of [slip, pull]) {
    if (measure.estimate.standardUncertainty === null) return refuse(`${measure.label.toLowerCase()} has no uncertainty: ${measure.estimate.method}`);
  }
  return { run: run.plan.id, slip: slip.estimate, pull: pull.estimate, setSlip: run.plan.setSlip };
}

/** Runs at different speeds do not belong on one curve. */
function mixed(group: readonly RunResult[], points: readonly PullPoint[]): Finding[] {
  const used = new Set(points.map((point) => point.run));
  const speeds = new Set(group.filter((run) => used.has(run.plan.id)).map((run) => run.plan.setSpeedMps));
  if (speeds.size < 2) return [];
  const shown = [...speeds].map((speed) => (speed === null ? "not stated" : `${speed * 1000} mm/s`)).join(", ");
  return [finding("mixed-speeds", "look", `The runs on this curve were set to different speeds (${shown}); pull and sinkage change with speed. Fit them apart.`)];
}
