import type { BudgetRow, Estimate } from "../core/estimate.ts";
import { coverageFactor } from "../numerics/coverageFactor.ts";
import { normalQuantile } from "../numerics/distributions.ts";
import { studentSumFactor } from "../numerics/studentSum.ts";

/** The 95 % interval of an estimate. */
export interface Expanded {
  /** half its width [in the estimate's unit] */
  readonly half: number;
  /** coverage factor */
  readonly k: number;
  /** of what is normal, for the few degrees of freedom behind part of it: 1 where all is known */
  readonly widening: number;
}

/**
 * Half of the 95 % interval [in the estimate's unit] and its coverage factor; null when the estimate has none.
 *
 * Student's t with the effective degrees of freedom, corrected for what those leave out (`studentSumFactor`); where a cause of
 * which only the bounds are known stands in the budget, the greatest such cause counts as rectangular and the rest as normal.
 *
 * @source JCGM 100:2008, G.2.2, G.3 and G.4; see coverageFactor
 */
export function expandedUncertainty(estimate: Estimate): Expanded | null {
  const u = estimate.standardUncertainty;
  if (u === null || !Number.isFinite(u) || !Number.isFinite(estimate.value) || !(estimate.degreesOfFreedom > 0)) return null;
  const bounded = estimate.budget.filter((row) => row.shape === "rectangular").sort((a, b) => Math.abs(b.effect) - Math.abs(a.effect))[0];
  const { estimated, degreesOfFreedom, known } = normalParts(estimate, bounded);
  const k = coverageFactor(estimated, degreesOfFreedom, known, Math.abs(bounded?.effect ?? 0), 0.95);
  if (Number.isNaN(k)) return { half: 0, k: 1, widening: 1 };
  const widening = known + estimated === 0 ? 1 : studentSumFactor(estimated, degreesOfFreedom, known, 0.95) / normalQuantile(0.975);
  return Number.isFinite(k) ? { half: k * u, k, widening } : null;
}

/** What is left beside one row: what rests on data, with its effective degrees of freedom, and what was stated. */
function normalParts(estimate: Estimate, without: BudgetRow | undefined): { readonly estimated: number; readonly degreesOfFreedom: number; readonly known: number } {
  const rest = estimate.budget.filter((row) => row !== without);
  // a result put together elsewhere may have no rows
  if (rest.length === 0 && without === undefined) return { estimated: estimate.standardUncertainty as number, degreesOfFreedom: estimate.degreesOfFreedom, known: 0 };
  const variance = (rows: readonly BudgetRow[]): number => rows.reduce((sum, row) => sum + row.effect ** 2, 0);
  const ofData = rest.filter((row) => row.degreesOfFreedom < Infinity);
  const fourth = ofData.reduce((sum, row) => sum + row.effect ** 4 / row.degreesOfFreedom, 0);
  return { estimated: Math.sqrt(variance(ofData)), degreesOfFreedom: fourth > 0 ? variance(ofData) ** 2 / fourth : Infinity, known: Math.sqrt(variance(rest.filter((row) => !(row.degreesOfFreedom < Infinity)))) };
}
