import type { Campaign } from "../../campaign/campaign.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { studentTQuantile } from "../../numerics/distributions.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import { mean } from "../../numerics/statistics.ts";
import type { RunResult, Trace } from "../dayResult.ts";
import { pick } from "../references.ts";

/** A trend needs so many runs and must be this unlikely by chance (both sides). */
const fewest = 4;
const chance = 0.01;

/** Motor current in place of a torque sensor: what the cold gearbox takes is read as torque at the wheel. */
export function currentTorque(runs: readonly RunResult[], campaign: Campaign): Finding[] {
  const declared = Object.entries(campaign.rig.loggers).find(([, logger]) => logger.channels["wheelTorque"]?.unit === "A");
  const stated = declared === undefined ? [] : [finding("torque-from-current", "look", `Logger ${declared[0]} gives wheelTorque from the motor's current: gearbox friction, which falls as it warms, stands in it. Warm the drive up, free-spin it before and after each block, or fit a torque sensor`, { channel: "wheelTorque" })];
  return [...stated, ...trend(runs, campaign)];
}

/** Torque per ampere through the day, where both are measured. */
function trend(runs: readonly RunResult[], campaign: Campaign): Finding[] {
  const ratios = runs.flatMap((run, order) => {
    const torque = pick(run, "wheelTorque");
    const current = meanOf(run, "motorCurrent");
    if (run.plan.kind !== "traction" || torque === null || current === null || !(Math.abs(current) > 0)) return [];
    return [{ run: run.plan.id, order, ratio: torque.value / current, celsius: meanOf(run, "temperature") }];
  });
  if (ratios.length < fewest) return [];
  const { slope, covariance, degreesOfFreedom } = lineFit(ratios.map(({ order }) => order), ratios.map(({ ratio }) => ratio));
  const orders = ratios.map(({ order }) => order);
  const share = (slope * (Math.max(...orders) - Math.min(...orders))) / mean(ratios.map(({ ratio }) => ratio));
  const limits = campaign.rig.tolerances.torquePerCurrent;
  if (!(Math.abs(share) > limits.look) || Math.abs(slope) < studentTQuantile(1 - chance / 2, degreesOfFreedom) * Math.sqrt(covariance[1]?.[1] ?? 0)) return [];
  const severity = Math.abs(share) > limits.reject ? "reject" : "look";
  const [first, last] = [ratios[0], ratios.at(-1)];
  const warmed = first?.celsius === null || last?.celsius === null || first === undefined || last === undefined ? "" : `, while the temperature went from ${(first.celsius as number).toFixed(1)} to ${(last.celsius as number).toFixed(1)} °C`;
  return [finding("torque-per-current", severity, `Torque per ampere of motor current changes by ${(100 * share).toFixed(1)} % from ${first?.run} to ${last?.run}${warmed}: the gearbox warms, or one of the two sensors drifts. Warm the drive up before the first run; do not read torque from the current`, { channel: "motorCurrent", measured: Math.abs(share), limit: limits[severity] })];
}

/** Mean of a trace over the steady window; null when it was not recorded. */
function meanOf(run: RunResult, channel: string): number | null {
  const trace: Trace | undefined = run.traces.find((candidate) => candidate.channel === channel);
  const steady = run.segments.find((segment) => segment.kind === "steady");
  if (trace === undefined || steady === undefined) return null;
  const values = trace.values.filter((value, i): value is number => value !== null && (trace.timesS[i] as number) >= steady.fromS && (trace.timesS[i] as number) < steady.toS);
  return values.length === 0 ? null : mean(values);
}
