import { combine, estimateFrom } from "../core/estimate.ts";
import type { BudgetRow, Estimate } from "../core/estimate.ts";
import { mean } from "../numerics/statistics.ts";
import type { RepeatScatter } from "../processing/repeatScatter.ts";

/**
 * What one condition gives: the mean of its repeats.
 *
 *   x̄ = Σ xᵢ / m        u² = s_r² / m + Σ_c (Σ effects of the shared cause c / m)²
 *
 * What a run has for itself (noise, zero, scatter between revolutions) is inside the scatter s_r between repeats, and so is
 * preparing the bed again; both go down with the number of runs m. What runs share, a calibration or a reference run,
 * moves all of them at once and stays whole. Without any repeats on the day the runs' own doubts stand in place of s_r.
 *
 * @param estimates  the repeats, of one unit
 * @param scatter    between repeats of this measure, as a condition of this size has it; null = no condition of the day was repeated
 * @param measure    the measure's name, which names the scatter's budget row
 * @returns          the mean [the estimates' unit]; undetermined where a repeat has no uncertainty
 * @source           JCGM 100:2008, 4.2.3, 4.2.4 and F.1.2.3; ISO 5725-2 for the scatter
 * @checked          tests/fitting/conditionMean.test.ts
 */
export function conditionMean(estimates: readonly Estimate[], scatter: RepeatScatter | null, measure: string): Estimate {
  const unit = (estimates[0] as Estimate).unit;
  const m = estimates.length;
  const together = combine(estimates, (...values) => mean(values), unit, m === 1 ? "one run" : `mean of ${m} runs`);
  if (together.standardUncertainty === null) return together;
  if (scatter === null) return { ...together, method: `${together.method}; what preparing the bed again brings is not inside, because nothing was repeated` };
  const shared = together.budget.filter((row) => isShared(row, estimates));
  const own: BudgetRow = { cause: scatterCause(measure), effect: scatter.sd / Math.sqrt(m), sharedBy: null, degreesOfFreedom: scatter.degreesOfFreedom };
  return estimateFrom(together.value, unit, `${together.method}, with the scatter between the day's repeats`, [...shared, own]);
}

/**
 * What the scatter between repeats is called in a budget. It has one name for all conditions of a measure, since the same repeats stand behind them.
 *
 * @param measure  the measure's name
 * @returns        the budget row's cause
 * @source         a choice of this project
 * @checked        tests/fitting/conditionMean.test.ts
 */
export function scatterCause(measure: string): string {
  return `scatter between repeats, ${measure}`;
}

/** A cause is shared when it says so, or when more than one run names it. */
function isShared(row: BudgetRow, estimates: readonly Estimate[]): boolean {
  return row.sharedBy !== null || estimates.filter((estimate) => estimate.budget.some((other) => other.cause === row.cause)).length > 1;
}
