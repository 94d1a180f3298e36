import type { BudgetRow, Estimate } from "../core/estimate.ts";
import { coverageFactor } from "../numerics/coverageFactor.ts";

/**
 * Half of the 95 % interval [in the estimate's unit] and its coverage factor; null when the estimate has none.
 *
 * Student's t with the effective degrees of freedom; where a cause of which only the bounds are known stands in the budget,
 * the greatest such cause counts as rectangular and the rest as normal.
 *
 * @source JCGM 100:2008, G.2.2, G.3 and G.4; see coverageFactor
 */
export function expandedUncertainty(estimate: Estimate): { readonly half: number; readonly k: number } | null {
  const u = estimate.standardUncertainty;
  if (u === null || !Number.isFinite(u) || !Number.isFinite(estimate.value) || !(estimate.degreesOfFreedom > 0)) return null;
  const bounded = estimate.budget.filter((row) => row.shape === "rectangular").sort((a, b) => Math.abs(b.effect) - Math.abs(a.effect))[0];
  const { normal, degreesOfFreedom } = normalPart(estimate, bounded);
  const k = coverageFactor(normal, degreesOfFreedom, Math.abs(bounded?.effect ?? 0), 0.95);
  if (Number.isNaN(k)) return { half: 0, k: 1 };
  return Number.isFinite(k) ? { half: k * u, k } : null;
}

/** What is left beside one row; the estimate itself when there is no such row. */
function normalPart(estimate: Estimate, without: BudgetRow | undefined): { readonly normal: number; readonly degreesOfFreedom: number } {
  if (without === undefined) return { normal: estimate.standardUncertainty as number, degreesOfFreedom: estimate.degreesOfFreedom };
  const rest = estimate.budget.filter((row) => row !== without);
  const variance = rest.reduce((sum, row) => sum + row.effect ** 2, 0);
  const fourth = rest.reduce((sum, row) => sum + row.effect ** 4 / row.degreesOfFreedom, 0);
  return { normal: Math.sqrt(variance), degreesOfFreedom: fourth > 0 ? variance ** 2 / fourth : Infinity };
}
