import type { Rig } from "../campaign/rigSchema.ts";
import { combine, estimateFrom, undetermined } from "../core/estimate.ts";
import type { BudgetRow, Estimate } from "../core/estimate.ts";
import { cumulativeDamage } from "../models/cumulativeDamage.ts";
import type { CycleBlock } from "../models/cumulativeDamage.ts";
import { normalQuantile } from "../numerics/distributions.ts";
import type { RunResult } from "../processing/dayResult.ts";
import type { LoadDamage, LogInterval } from "../processing/enduranceResult.ts";
import { barred, measureOf } from "./refusedPoint.ts";

/**
 * Cycles of load in some endurance runs of a wheel, and the share of its life that they use up.
 *
 *   D = Σ nᵢ/Nᵢ        u: m D u(gain)/gain, and D ln f for a life line that scatters by the factor f        D_mission = D X / Σ x
 *
 * Intervals: D e^(± 1.96 u/D), of these runs and at the mission. Ranges know no zero, so only the gain of the load counts; it is taken from the budget of the runs' mean load.
 *
 * @param runs       endurance runs of one wheel
 * @param endurance  the rig's block: life line and mission distance X [m]
 * @returns          counts, D of these runs and D of a mission; null without a run that counted cycles
 * @source           A. Palmgren 1924, M. A. Miner 1945; propagation: JCGM 100:2008, 5.1.2
 * @checked          tests/fitting/loadDamage.test.ts
 */
export function loadDamage(runs: readonly RunResult[], endurance: Rig["endurance"]): LoadDamage | null {
  const counted = runs.filter((run) => barred(run) === null && blocksOf(run).length > 0);
  if (counted.length === 0) return null;
  const blocks = counted.flatMap(blocksOf);
  const ids = counted.map((run) => run.plan.id);
  const distances = counted.map((run) => measureOf(run, "distance")?.estimate ?? undetermined("m", `run ${run.plan.id} has no distance`));
  const distance = combine(distances, (...values) => values.reduce((sum, value) => sum + value, 0), "m", `path of ${ids.join(", ")}`);
  const damage = damageOf(counted, endurance);
  const mission = endurance?.missionDistance;
  const atMission = mission === undefined ? undetermined("1", "rig.yaml states no missionDistance under endurance") : combine([damage, distance], (d = Number.NaN, x = Number.NaN) => (d * mission) / x, "1", `${damage.method}; as many cycles a distance up to ${mission / 1000} km`);
  return { runs: ids, distance, cycles: blocks.reduce((sum, block) => sum + block.cycles, 0), largestRangeN: Math.max(...blocks.map((block) => block.range)), damage, damageInterval: logInterval(damage), atMission, missionInterval: logInterval(atMission) };
}

/** A factor either way: damage is never below zero. */
function logInterval({ value, standardUncertainty: u }: Estimate): LogInterval | null {
  if (u === null || !(value > 0)) return null;
  const factor = Math.exp((normalQuantile(0.975) * u) / value);
  return { low: value / factor, high: value * factor };
}

function blocksOf(run: RunResult): CycleBlock[] {
  const curve = run.curves.find(({ name }) => name === "loadCycles");
  return (curve?.x.values ?? []).map((range, i) => ({ range: range as number, cycles: curve?.y.values[i] as number }));
}

function damageOf(runs: readonly RunResult[], endurance: Rig["endurance"]): Estimate<"1"> {
  const line = endurance?.lifeLine;
  if (line === undefined) return undetermined("1", "rig.yaml states no lifeLine under endurance");
  const sums = runs.map((run) => cumulativeDamage(blocksOf(run), { atRange: line.range, cyclesToFailure: line.cycles, exponent: line.exponent, cutOffRange: line.cutOff }));
  const total = sums.reduce((sum, one) => sum + one, 0);
  const gains = runs.flatMap((run, i): BudgetRow[] => {
    const load = measureOf(run, "verticalLoad")?.estimate;
    return (load?.budget ?? []).filter((row) => row.sharedBy !== null).map((row) => ({ ...row, effect: (line.exponent * (sums[i] as number) * row.effect) / (load as Estimate).value }));
  });
  const method = "linear sum over rain-flow counts of the vertical load";
  const known = runs.every((run) => (measureOf(run, "verticalLoad")?.estimate.standardUncertainty ?? null) !== null);
  if (!known) return undetermined("1", `${method}; the load has no uncertainty`, total);
  if (line.scatterFactor === undefined) return estimateFrom(total, "1", `${method}; the scatter of lives about the life line is not inside, because rig.yaml states no scatterFactor`, gains);
  const scatter: BudgetRow = { cause: "scatter of lives about the life line", effect: total * Math.log(line.scatterFactor), sharedBy: "life line", degreesOfFreedom: Infinity };
  return estimateFrom(total, "1", method, [...gains, scatter]);
}
