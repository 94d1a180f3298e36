import type { Campaign } from "../../campaign/campaign.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { groupBy } from "../../core/groupBy.ts";
import { mean } from "../../numerics/statistics.ts";
import type { RunResult } from "../dayResult.ts";
import { pick } from "../references.ts";

/** Wheels at the same load and slip are compared; at another speed the soil, not the wheel, makes the difference. */
export function comparedSpeeds(runs: readonly RunResult[], campaign: Campaign): Finding[] {
  const limits = campaign.rig.tolerances.comparedSpeeds;
  const traction = runs.flatMap((run) => {
    const speed = pick(run, "carriageSpeed");
    const counts = run.plan.kind === "traction" && run.verdict !== "excluded" && run.plan.wheel !== null && run.plan.setLoadN !== null && run.plan.setSlip !== null;
    return counts && speed !== null ? [{ wheel: run.plan.wheel as string, condition: `${run.plan.setLoadN} N and a slip of ${run.plan.setSlip}`, speed: Math.abs(speed.value) }] : [];
  });
  return [...groupBy(traction, ({ condition }) => condition)].flatMap(([condition, group]): Finding[] => {
    const wheels = [...groupBy(group, ({ wheel }) => wheel)].map(([wheel, own]) => ({ wheel, speed: mean(own.map(({ speed }) => speed)) })).sort((a, b) => a.speed - b.speed);
    const [slowest, fastest] = [wheels[0], wheels.at(-1)];
    if (slowest === undefined || fastest === undefined) return [];
    const share = fastest.speed / slowest.speed - 1;
    if (!(share > limits.look)) return [];
    const severity = share > limits.reject ? "reject" : "look";
    return [finding("speeds-compared", severity, `At ${condition}, wheel ${fastest.wheel} ran at ${(1000 * fastest.speed).toFixed(1)} mm/s and ${slowest.wheel} at ${(1000 * slowest.speed).toFixed(1)} mm/s: a difference between them may be one of speed. Compare wheels at one speed`, { measured: share, limit: limits[severity] })];
  });
}
