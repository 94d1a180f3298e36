import type { WheelRecord } from "../campaign/campaign.ts";
import { combine, estimateFrom, undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { groupBy } from "../core/groupBy.ts";
import { standardDeviation } from "../numerics/statistics.ts";
import type { CoreDifference, RunResult } from "../processing/dayResult.ts";
import { barred, measureOf } from "./refusedPoint.ts";

const compared = [
  { measure: "secantStiffness", label: "Secant stiffness", unit: "N/m" },
  { measure: "tangentStiffness", label: "Tangent stiffness", unit: "N/m" },
  { measure: "loopEnergy", label: "Energy of the load–deflection loop", unit: "J" },
] as const;

/**
 * What a core adds to a wheel: load–deflection runs of the wheel with it, less those of its bare frame, at one set load.
 *
 *   Δ = mean(with core) − mean(bare frame)
 *
 * Stiffnesses in parallel add and so do losses, as far as frame and core deflect together; the difference says nothing of
 * a core that changes how the frame bends. What both share, such as one press's calibrations, enters by its difference.
 *
 * @param runs    all runs of the day
 * @param wheels  the wheel records; `bareFrame` pairs them
 * @returns       one entry per pair and set load; differences are undetermined where a side is missing
 * @source        JCGM 100:2008, 5.2 (correlated inputs); springs in parallel
 * @checked       tests/fitting/coreDifference.test.ts
 */
export function coreDifferencesFrom(runs: readonly RunResult[], wheels: readonly WheelRecord[]): CoreDifference[] {
  const pressed = runs.filter((run) => run.plan.kind === "loadDeflection" && barred(run) === null);
  return wheels.flatMap((wheel): CoreDifference[] => {
    const frame = wheel.bareFrame;
    if (frame === null) return [];
    const own = groupBy(pressed.filter((run) => run.plan.wheel === wheel.id), (run) => run.plan.setLoadN);
    const bare = groupBy(pressed.filter((run) => run.plan.wheel === frame), (run) => run.plan.setLoadN);
    const loads = [...own.keys()].filter((load): load is number => load !== null && bare.has(load));
    if (loads.length === 0) return [pair(wheel.id, frame, null, [], [])];
    return loads.map((load) => pair(wheel.id, frame, load, own.get(load) ?? [], bare.get(load) ?? []));
  });
}

function pair(wheel: string, frame: string, setLoadN: number | null, withCore: readonly RunResult[], bare: readonly RunResult[]): CoreDifference {
  const differences = compared.map(({ measure, label, unit }) => {
    const a = meanOf(wheel, withCore, measure, unit);
    const b = meanOf(frame, bare, measure, unit);
    const core = setLoadN === null ? undetermined(unit, `no usable load–deflection runs of ${wheel} and ${frame} at one and the same set load`) : combine([a, b], (whole = Number.NaN, part = Number.NaN) => whole - part, unit, `${wheel} less ${frame}, shared calibrations by their difference`);
    return { measure, label, withCore: a, bare: b, core };
  });
  return { wheel, frame, setLoadN, runs: [...withCore, ...bare].map((run) => run.plan.id), differences };
}

/** Mean of a measure over runs; how far they scatter is a cause of its own. */
function meanOf(wheel: string, runs: readonly RunResult[], name: string, unit: "N/m" | "J"): Estimate {
  const estimates = runs.flatMap((run) => measureOf(run, name)?.estimate ?? []).filter((estimate) => estimate.standardUncertainty !== null);
  if (estimates.length === 0) return undetermined(unit, `no usable run of ${wheel} gave it`);
  const mean = combine(estimates, (...values) => values.reduce((a, b) => a + b, 0) / values.length, unit, `mean of ${estimates.length} ${estimates.length === 1 ? "run" : "runs"}`);
  if (estimates.length === 1) return mean;
  const scatter = standardDeviation(estimates.map((estimate) => estimate.value)) / Math.sqrt(estimates.length);
  return estimateFrom(mean.value, unit, mean.method, [...mean.budget, { cause: `scatter between runs of ${wheel}`, effect: scatter, sharedBy: null, degreesOfFreedom: estimates.length - 1 }]);
}
