import type { Campaign } from "../../campaign/campaign.ts";
import { finding } from "../../core/finding.ts";
import { groupBy } from "../../core/groupBy.ts";
import { likelyUnit } from "../../core/likelyUnit.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import { mean } from "../../numerics/statistics.ts";
import type { DayFinding } from "../dayFinding.ts";
import type { RunResult } from "../dayResult.ts";
import { pick } from "../references.ts";

/** Slips whose pull still grows with torque: beyond them a wheel digs, and more torque need not pull more. */
const slipRange = [-0.3, 0.45] as const;
const fewest = 3;

/**
 * From slip to slip the force at the rim and the pull grow together, T/r − DP being the motion resistance, which changes little.
 * A ratio of growths far from 1 is a wrong sign or unit in one of them; the load does not enter, so it shows what no ratio shows.
 */
export function torqueAgainstPull(runs: readonly RunResult[], campaign: Campaign): DayFinding[] {
  const { look, reject } = campaign.rig.tolerances.torqueAgainstPull;
  const used = runs.filter((run) => run.plan.kind === "traction" && (run.plan.setSlip ?? Infinity) >= slipRange[0] && (run.plan.setSlip ?? Infinity) <= slipRange[1] && run.plan.setLoadN !== null);
  return [...groupBy(used, (run) => `${run.plan.wheel} at ${run.plan.setLoadN} N`)].flatMap(([name, group]) => {
    const points = group.flatMap((run) => {
      const [torque, radius, pull, load] = ["wheelTorque", "slipRadius", "drawbarPull", "verticalLoad"].map((measure) => pick(run, measure));
      return torque && radius && pull && load ? [{ run: run.plan.id, rimN: torque.value / radius.value, pullN: pull.value, loadN: Math.abs(load.value) }] : [];
    });
    if (new Set(group.map((run) => run.plan.setSlip)).size < fewest || points.length < fewest) return [];
    const grown = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
    const loadN = mean(points.map((point) => point.loadN));
    if (Math.max(grown(points.map((p) => p.rimN)), grown(points.map((p) => p.pullN))) < 0.1 * loadN) return [];
    const { slope } = lineFit(points.map((point) => point.pullN), points.map((point) => point.rimN));
    const away = slope > 0 ? Math.abs(Math.log(slope)) : Infinity;
    if (away <= look) return [];
    const limit = Math.exp(Math.sign(Math.log(Math.abs(slope))) * (away > reject ? reject : look));
    const says = slope < 0 ? "pull and torque at the rim go opposite ways" : `the force at the rim grows ${slope.toFixed(2)} times as much as the pull`;
    const found = finding("torque-against-pull", away > reject ? "reject" : "look", `Wheel ${name}: from slip to slip ${says}; it should be about once. Look at the ${slope < 0 ? "signs" : "units and gains"} of pull and torque in rig.yaml.${slope > 0 ? likelyUnit(slope, "force") || likelyUnit(slope, "torque") : ""}`, { measured: slope, limit });
    return [{ ...found, takesOut: points.map(({ run }) => run) }];
  });
}
