import type { Campaign } from "../../campaign/campaign.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { studentTQuantile } from "../../numerics/distributions.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import type { RunResult } from "../dayResult.ts";
import { pick } from "../references.ts";
import { percent } from "./judged.ts";

const fewestRuns = 6;
/** Greatest load over least from which a growth can be told. */
const loadRatio = 1.3;
/** Times its standard uncertainty that a side force has a sign. */
const signed = 2;
const chance = 0.001;

/**
 * Side force over the day: F_y = a + b·W over all traction runs. One sign in every run and a growth with the load belong to the rig,
 * not to a run: a hub that stands askew, a rig or bed that leans, or load that talks into the side force. What is there while the wheel
 * stands is no toe: a wheel makes that only as it rolls.
 */
export function sideForceGrows(runs: readonly RunResult[], campaign: Campaign): Finding[] {
  const points = runs.flatMap((run) => {
    const [side, load, standing] = [pick(run, "sideForce"), pick(run, "verticalLoad"), pick(run, "sideForceStanding")];
    const counts = run.plan.kind === "traction" && (run.verdict === "go" || run.verdict === "look");
    return !counts || side === null || load === null || side.standardUncertainty === null ? [] : [{ loadN: load.value, sideN: side.value, clear: Math.abs(side.value) > signed * side.standardUncertainty, standingN: standing?.value ?? null }];
  });
  const loads = points.map((point) => point.loadN);
  if (points.length < fewestRuns || Math.max(...loads) < loadRatio * Math.min(...loads)) return [];
  const signs = new Set(points.filter((point) => point.clear).map((point) => Math.sign(point.sideN)));
  if (signs.size !== 1) return [];
  const { slope, covariance, degreesOfFreedom } = lineFit(loads, points.map((point) => point.sideN));
  const limit = campaign.rig.tolerances.sideForceGrowth;
  if (Math.abs(slope) <= Math.max(limit, studentTQuantile(1 - chance / 2, degreesOfFreedom) * Math.sqrt(covariance[1][1]))) return [];
  const stood = points.flatMap(({ loadN, standingN }) => (standingN === null ? [] : [{ loadN, standingN }]));
  const standing = stood.length < points.length ? null : lineFit(loads, stood.map((point) => point.standingN)).slope;
  const most = Math.max(...points.map((point) => Math.abs(point.sideN)));
  const cause =
    standing === null
      ? "Look whether the wheel stands square to its way, whether rig and bed are level across, and load the wheel while it stands: what grows then is cross-talk"
      : standing / slope > 0.5
        ? `While the wheel stands it already grows by ${percent(Math.abs(standing))} of the load: the load talks into the side force, or rig or bed lean sideways. Look at the decoupling matrix, and level the rig across`
        : `While the wheel stands it grows by ${percent(Math.abs(standing))} only: it comes with rolling, so the wheel does not stand square to its way. Set the toe of the hub`;
  return [finding("side-force-grows", "look", `In all ${points.length} traction runs the side force has one sign, and it grows by ${percent(Math.abs(slope))} of the load, to ${most.toFixed(1)} N. ${cause}. Its part along the way stands in every pull: up to ${(most * Math.sin(Math.PI / 180)).toFixed(2)} N per degree`, { channel: "sideForce", measured: Math.abs(slope), limit })];
}
