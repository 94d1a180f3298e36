import type { BudgetRow } from "../../core/estimate.ts";

/** A cause of uncertainty, and what the data would be had it been one standard uncertainty larger (or smaller). */
export interface RecomputedCause<Data> {
  readonly cause: string;
  readonly sharedBy: string | null;
  readonly degreesOfFreedom: number;
  /** only bounds are known of it */
  readonly shape?: "rectangular";
  /** the data with the cause moved by `times` standard uncertainties */
  readonly move: (data: Data, times: number) => Data;
}

/**
 * Budget rows of several results at once, by doing the whole evaluation again with each cause moved.
 *
 *   effectᵢⱼ = fⱼ(data with cause i at +u) − fⱼ(data)
 *
 * Follows the evaluation as it really runs, branches included. Where the move upwards leaves no answer (a set load
 * just out of reach), the move downwards is taken with its sign turned.
 *
 * @param data       the data as they are
 * @param causes     the causes
 * @param evaluate   the results, always the same number of them
 * @returns          for each result, one row per cause; NaN where no move gave an answer
 * @source           JCGM 100:2008, 5.1.3 note 2 (numerical sensitivities)
 * @checked          tests/processing/measures/recomputedRows.test.ts
 */
export function recomputedRows<Data>(data: Data, causes: readonly RecomputedCause<Data>[], evaluate: (data: Data) => readonly number[]): BudgetRow[][] {
  const plain = evaluate(data);
  const rows: BudgetRow[][] = plain.map(() => []);
  for (const { cause, sharedBy, degreesOfFreedom, shape, move } of causes) {
    const up = evaluate(move(data, 1));
    const down = up.every((value) => Number.isFinite(value)) ? null : evaluate(move(data, -1));
    plain.forEach((value, j) => {
      const upwards = (up[j] as number) - value;
      const effect = Number.isFinite(upwards) || down === null ? upwards : value - (down[j] as number);
      (rows[j] as BudgetRow[]).push({ cause, effect, sharedBy, degreesOfFreedom, ...(shape !== undefined && { shape }) });
    });
  }
  return rows;
}
