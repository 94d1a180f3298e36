import { combine, estimateFrom } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { groupBy } from "../core/groupBy.ts";
import { standardDeviation } from "../numerics/statistics.ts";
import type { Conformity, RunResult } from "../processing/dayResult.ts";
import { barred, measureOf } from "./refusedPoint.ts";

/**
 * How a wheel's footprint on a step or rock compares with its own on flat ground, at one load and by one recorder.
 *
 *   index:  (A/(L·b))_uneven / (A/(L·b))_flat        area:  A_uneven / A_flat        [1]
 *
 * Near 1 the rim lies on the obstacle as it does on the floor; below, it bridges. The index leaves out how long the footprint
 * is, the area does not. Repeats are averaged, their scatter being a cause of its own; what both share, such as the size of the
 * pad's cells, enters by its difference.
 *
 * @param runs  all runs of the day
 * @returns     one entry per wheel, set load, recorder and uneven ground, where a flat footprint stands beside it
 * @source      a definition; JCGM 100:2008, 5.2 (correlated inputs)
 * @checked     tests/fitting/conformity.test.ts
 */
export function conformityFrom(runs: readonly RunResult[]): Conformity[] {
  const taken = runs.filter((run) => run.plan.kind === "footprint" && barred(run) === null);
  const groups = groupBy(taken, ({ plan }) => `${plan.wheel}\u0000${plan.setLoadN}\u0000${plan.footprint?.from}`);
  return [...groups.values()].flatMap((group): Conformity[] => {
    const on = (ground: string): RunResult[] => group.filter((run) => run.plan.footprint?.ground === ground);
    const flat = on("flat");
    return (["step", "rock"] as const).flatMap((ground): Conformity[] => {
      const uneven = on(ground);
      const first = uneven[0]?.plan;
      if (first === undefined || flat.length === 0 || first.wheel === null || first.setLoadN === null || first.footprint === null) return [];
      const ratio = (name: string): Estimate<"1"> => combine([meanOf(uneven, name), meanOf(flat, name)], (a = Number.NaN, b = Number.NaN) => a / b, "1", `${ground} over flat ground`);
      return [{ wheel: first.wheel, setLoadN: first.setLoadN, from: first.footprint.from, ground, runs: [...uneven, ...flat].map((run) => run.plan.id), index: ratio("conformityIndex"), area: ratio("contactArea") }];
    });
  });
}

/** Mean over repeats; how far they scatter is a cause of its own. */
function meanOf(runs: readonly RunResult[], name: string): Estimate {
  const estimates = runs.flatMap((run) => measureOf(run, name)?.estimate ?? []);
  const unit = estimates[0]?.unit ?? "1";
  const mean = combine(estimates, (...values) => values.reduce((a, b) => a + b, 0) / values.length, unit, `mean of ${estimates.length} footprints`);
  if (estimates.length < 2 || mean.standardUncertainty === null) return mean;
  const scatter = standardDeviation(estimates.map((estimate) => estimate.value)) / Math.sqrt(estimates.length);
  return estimateFrom(mean.value, unit, mean.method, [...mean.budget, { cause: `scatter between footprints ${runs.map((run) => run.plan.id).join(", ")}`, effect: scatter, sharedBy: null, degreesOfFreedom: estimates.length - 1 }]);
}
