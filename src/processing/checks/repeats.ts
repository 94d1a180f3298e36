import type { Campaign } from "../../campaign/campaign.ts";
import type { Estimate } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { groupBy } from "../../core/groupBy.ts";
import { studentTQuantile } from "../../numerics/distributions.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import type { RunResult } from "../dayResult.ts";
import { pick } from "../references.ts";

/** A trend needs so many repeats, and must be this unlikely by chance (both sides). */
const fewest = 4;
const chance = 0.01;
/** Two repeats on one bed must differ by this many of their own standard uncertainties. */
const clear = 3;

interface Repeat {
  readonly run: string;
  /** place in the day */
  readonly order: number;
  readonly bed: string | null;
  readonly pull: Estimate;
}

/** Repeats of one condition, in the order of the sheet: a bed that is used again, or a bed, sensor or wheel that changes through the day. */
export function repeatsFindings(runs: readonly RunResult[], campaign: Campaign): Finding[] {
  const repeats = runs.flatMap((run, order) => {
    const pull = pick(run, "pullCoefficient");
    const counts = run.plan.kind === "traction" && (run.verdict === "go" || run.verdict === "look");
    return !counts || pull === null ? [] : [{ condition: `${run.plan.wheel}, ${run.plan.setLoadN} N, slip ${run.plan.setSlip}, ${run.plan.setSpeedMps} m/s, pass ${run.plan.pass ?? 1}`, run: run.plan.id, order, bed: run.plan.bed, pull }];
  });
  return [...groupBy(repeats, (repeat) => repeat.condition)].flatMap(([condition, group]) => [...sameBed(group, campaign), ...trend(condition, group, campaign)]);
}

/** First and last repeat on one bed. */
function sameBed(group: readonly Repeat[], campaign: Campaign): Finding[] {
  const limit = campaign.rig.tolerances.bedChange;
  return [...groupBy(group.filter((repeat) => repeat.bed !== null), (repeat) => repeat.bed as string)].flatMap(([bed, onBed]) => {
    const first = onBed[0];
    const last = onBed.at(-1);
    if (first === undefined || last === undefined || first === last) return [];
    const change = last.pull.value - first.pull.value;
    if (Math.abs(change) <= limit || Math.abs(change) < clear * Math.hypot(ownUncertainty(first.pull), ownUncertainty(last.pull))) return [];
    return [finding("bed-changed", "look", `On bed ${bed} the pull coefficient of the same set point went from ${first.pull.value.toFixed(3)} (${first.run}) to ${last.pull.value.toFixed(3)} (${last.run}). Look whether the later wheel ran in a rut, or the bed was trodden or shaken; prepare it again and repeat`, { channel: "drawbarPull", measured: Math.abs(change), limit })];
  });
}

function trend(condition: string, group: readonly Repeat[], campaign: Campaign): Finding[] {
  if (group.length < fewest) return [];
  const orders = group.map((repeat) => repeat.order);
  const { slope, covariance, degreesOfFreedom } = lineFit(orders, group.map((repeat) => repeat.pull.value));
  const change = slope * (Math.max(...orders) - Math.min(...orders));
  const limit = campaign.rig.tolerances.orderTrend;
  const standardError = Math.sqrt(covariance[1]?.[1] ?? 0);
  if (Math.abs(change) <= limit || Math.abs(slope) < studentTQuantile(1 - chance / 2, degreesOfFreedom) * standardError) return [];
  return [finding("order-trend", "look", `Repeats of ${condition} drift through the day: the pull coefficient changes by ${change.toFixed(3)} from ${group[0]?.run} to ${group.at(-1)?.run}. Look at how the beds were prepared, at moisture and temperature, at the wheel, and at the sensors' zeros; compare wheels within blocks only`, { channel: "drawbarPull", measured: Math.abs(change), limit })];
}

/** What two runs of one day do not share: gains common to both cannot make them differ. */
function ownUncertainty(estimate: Estimate): number {
  return Math.hypot(...estimate.budget.filter((row) => row.sharedBy === null).map((row) => row.effect));
}
