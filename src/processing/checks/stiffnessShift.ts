import type { Campaign } from "../../campaign/campaign.ts";
import type { Estimate } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import { groupBy } from "../../core/groupBy.ts";
import type { DayFinding } from "../dayFinding.ts";
import type { RunResult } from "../dayResult.ts";
import { pick } from "../references.ts";

/** A change must stand clear of what the runs do not share by this many standard uncertainties. */
const clear = 3;

/** The same wheel pressed again: spokes that wear and a core that settles show as a changed stiffness, and everything before and after belongs to two wheels. */
export function stiffnessShift(runs: readonly RunResult[], campaign: Campaign): DayFinding[] {
  const limits = campaign.rig.tolerances.stiffnessShift;
  const pressed = runs.flatMap((run) => {
    const stiffness = pick(run, "secantStiffness");
    const counts = run.plan.kind === "loadDeflection" && (run.verdict === "go" || run.verdict === "look") && run.plan.wheel !== null;
    return counts && stiffness !== null ? [{ run: run.plan.id, wheel: run.plan.wheel as string, at: `${run.plan.setLoadN} ${run.plan.contactAngleRad}`, stiffness }] : [];
  });
  return [...groupBy(pressed, ({ wheel, at }) => `${wheel}, ${at}`).values()].flatMap((group): DayFinding[] => {
    const first = group[0];
    const last = group.at(-1);
    if (first === undefined || last === undefined || first === last) return [];
    const share = last.stiffness.value / first.stiffness.value - 1;
    const doubt = Math.hypot(own(first.stiffness), own(last.stiffness)) / first.stiffness.value;
    if (!(Math.abs(share) > limits.look) || Math.abs(share) < clear * doubt) return [];
    const severity = Math.abs(share) > limits.reject ? "reject" : "look";
    const found = finding("stiffness-changed", severity, `Wheel ${first.wheel} became ${(100 * Math.abs(share)).toFixed(1)} % ${share < 0 ? "softer" : "stiffer"} between ${first.run} and ${last.run}. Look for worn or loose spokes and a settled core; condition the wheel anew, and keep the runs before and after apart`, { channel: "pressForce", measured: Math.abs(share), limit: limits[severity] });
    // No curve holds for the wheel before and after.
    return [{ ...found, takesOut: group.map(({ run }) => run) }];
  });
}

/** What two runs of one press do not share. */
function own(estimate: Estimate): number {
  return Math.hypot(...estimate.budget.filter((row) => row.sharedBy === null).map((row) => row.effect));
}
