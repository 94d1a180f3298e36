import type { BudgetRow, Estimate } from "../core/estimate.ts";
import type { Fit, FitParameter } from "../core/fit.ts";
import type { Unit } from "../core/units.ts";
import { estimateFrom } from "../core/estimate.ts";

/** One shared cause and what it does to each parameter of a fit. */
export interface ParameterShift {
  readonly cause: string;
  readonly sharedBy: string;
  readonly degreesOfFreedom: number;
  readonly shifts: readonly number[];
}

/** What a fitted parameter is called, and its unit. */
export interface ParameterName {
  readonly name: string;
  readonly symbol: string;
  readonly unit: Unit;
}

/**
 * Parameters of a fit with their uncertainties: the part that is each run's own, as a covariance, and the shared causes
 * on top, which more runs do not make smaller.
 *
 *   C = C_unshared + Σ shift shiftᵀ
 *
 * @param values              the fitted parameters
 * @param names               name, symbol and unit of each
 * @param unshared            covariance of the unshared part
 * @param degreesOfFreedom    behind the unshared part
 * @param scatterCause        names the unshared part in the budgets
 * @param shifts              the shared causes
 * @param method              how the parameters came about
 * @returns                   parameters with budgets, and the whole covariance
 * @source                    JCGM 100:2008, 5.2.2 and F.1.2.3
 * @checked                   tests/fitting/parameterEstimates.test.ts
 */
export function parameterEstimates(values: readonly number[], names: readonly ParameterName[], unshared: readonly (readonly number[])[], degreesOfFreedom: number, scatterCause: string, shifts: readonly ParameterShift[], method: string): Pick<Fit, "parameters" | "covariance"> {
  const parameters = values.map((value, i): FitParameter => {
    const { name, symbol, unit } = names[i] as ParameterName;
    const rows: BudgetRow[] = [
      { cause: scatterCause, effect: Math.sqrt((unshared[i] as readonly number[])[i] as number), sharedBy: null, degreesOfFreedom },
      ...shifts.map((shift) => ({ cause: shift.cause, effect: shift.shifts[i] as number, sharedBy: shift.sharedBy, degreesOfFreedom: shift.degreesOfFreedom })),
    ];
    return { name, symbol, estimate: estimateFrom(value, unit, method, rows) };
  });
  const covariance = unshared.map((row, i) => row.map((value, j) => value + shifts.reduce((sum, shift) => sum + (shift.shifts[i] as number) * (shift.shifts[j] as number), 0)));
  return { parameters, covariance };
}

/**
 * A smooth function of a fit's parameters, with the correlation of its parameters and the shared causes kept apart.
 *
 *   u² = gᵀ C_unshared g + Σ (gᵀ shift)²
 *
 * @param fit      a determined Fit from `parameterEstimates`
 * @param value    the function's value
 * @param slopes   g, its slopes by the parameters, in their order
 * @param unit     unit of the value
 * @param method   how it came about
 * @returns        the Estimate
 * @source         JCGM 100:2008, 5.2.2
 * @checked        tests/fitting/parameterEstimates.test.ts
 */
export function functionOfFit<U extends Unit>(fit: Fit, value: number, slopes: readonly number[], unit: U, method: string): Estimate<U> {
  const shared = new Map<string, BudgetRow>();
  let scatter: BudgetRow | null = null;
  fit.parameters.forEach(({ estimate }, i) => {
    for (const row of estimate.budget) {
      if (row.sharedBy === null) scatter = row;
      else shared.set(row.cause, { ...row, effect: (shared.get(row.cause)?.effect ?? 0) + row.effect * (slopes[i] as number) });
    }
  });
  const whole = slopes.reduce((sum, a, i) => sum + slopes.reduce((inner, b, j) => inner + a * b * ((fit.covariance[i] as readonly number[])[j] as number), 0), 0);
  const own = whole - [...shared.values()].reduce((sum, row) => sum + row.effect ** 2, 0);
  // what cancels to within rounding is not a cause
  for (const [cause, row] of shared) if (row.effect ** 2 < 1e-24 * whole) shared.delete(cause);
  const rows = scatter === null ? [] : [{ ...(scatter as BudgetRow), effect: Math.sqrt(Math.max(0, own)) }];
  return estimateFrom(value, unit, method, [...rows, ...shared.values()]);
}
