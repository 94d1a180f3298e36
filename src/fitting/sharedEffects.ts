import type { BudgetRow, Estimate } from "../core/estimate.ts";

/**
 * The part of an estimate's uncertainty that belongs to this run alone and averages out over runs.
 *
 *   u² = Σ effect² over the rows that nothing else shares
 *
 * @param estimate   an Estimate with a budget
 * @returns          standard uncertainty in the estimate's unit; 0 when every row is shared
 * @source           JCGM 100:2008, 5.1.2
 * @checked          tests/fitting/sharedEffects.test.ts
 */
export function unsharedUncertainty(estimate: Estimate): number {
  return Math.sqrt(estimate.budget.filter((row) => row.sharedBy === null).reduce((sum, row) => sum + row.effect ** 2, 0));
}

/** What one shared cause does to each of several results when it moves by one standard uncertainty. */
export interface SharedEffect {
  readonly cause: string;
  readonly sharedBy: string;
  readonly degreesOfFreedom: number;
  /** signed, one per estimate; 0 where the cause does not reach */
  readonly effects: readonly number[];
}

/**
 * The shared causes behind several estimates: each moves all of them at once, so it never averages out over runs.
 *
 * @param estimates   the estimates, of one unit
 * @returns           one entry per shared cause, in order of first appearance
 * @source            JCGM 100:2008, F.1.2.3 (correlation through common causes)
 * @checked           tests/fitting/sharedEffects.test.ts
 */
export function sharedEffects(estimates: readonly Estimate[]): SharedEffect[] {
  const first = new Map<string, BudgetRow & { sharedBy: string }>();
  for (const row of estimates.flatMap((estimate) => estimate.budget)) {
    if (row.sharedBy !== null && !first.has(row.cause)) first.set(row.cause, { ...row, sharedBy: row.sharedBy });
  }
  return [...first.values()].map(({ cause, sharedBy, degreesOfFreedom }) => ({
    cause,
    sharedBy,
    degreesOfFreedom,
    effects: estimates.map((estimate) => estimate.budget.filter((row) => row.cause === cause).reduce((sum, row) => sum + row.effect, 0)),
  }));
}
