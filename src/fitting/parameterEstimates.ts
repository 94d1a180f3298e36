import type { BudgetRow, Estimate } from "../core/estimate.ts";
import type { Fit, FitParameter, OwnCauses } from "../core/fit.ts";
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
  return parameterEstimatesByCause(values, names, { causes: [scatterCause], sizes: [1], units: [unshared], doubt: [[2 / degreesOfFreedom]], lost: unshared.map((row) => row.map(() => 0)) }, shifts, method);
}

/**
 * The same where the unshared part has several causes, each known so well.
 *
 *   C = Σ θ_a C_a + lost + Σ shift shiftᵀ
 *
 * @param values   the fitted parameters
 * @param names    name, symbol and unit of each
 * @param own      the unshared part, cause by cause
 * @param shifts   the shared causes
 * @param method   how the parameters came about
 * @returns        parameters with budgets, the whole covariance, and the unshared causes for `functionOfFit`
 * @source         JCGM 100:2008, 5.2.2 and F.1.2.3
 * @checked        tests/fitting/parameterEstimates.test.ts
 */
export function parameterEstimatesByCause(values: readonly number[], names: readonly ParameterName[], own: OwnCauses, shifts: readonly ParameterShift[], method: string): Pick<Fit, "parameters" | "covariance"> & { readonly own: OwnCauses } {
  const parameters = values.map((value, i): FitParameter => {
    const { name, symbol, unit } = names[i] as ParameterName;
    const rows = [...ownRows(own, values.map((_, j) => (i === j ? 1 : 0))), ...shifts.map((shift) => ({ cause: shift.cause, effect: shift.shifts[i] as number, sharedBy: shift.sharedBy, degreesOfFreedom: shift.degreesOfFreedom }))];
    return { name, symbol, estimate: estimateFrom(value, unit, method, rows) };
  });
  const covariance = values.map((_, i) => values.map((__, j) => own.units.reduce((sum, unit, a) => sum + (own.sizes[a] as number) * (unit[i]?.[j] as number), own.lost[i]?.[j] as number) + shifts.reduce((sum, shift) => sum + (shift.shifts[i] as number) * (shift.shifts[j] as number), 0)));
  return { parameters, covariance, own };
}

/** Degrees of freedom below which Student's factor is no number that anyone could use: a cause that may be there unseen widens an interval so far and not beyond. */
const leastFreedom = 1;

/** Budget rows of the unshared causes. What is known of them together sets their degrees of freedom: causes told apart poorly may be known well as a sum, and one that was not seen may be there. */
function ownRows({ causes, sizes, units, doubt, lost }: OwnCauses, slopes: readonly number[]): BudgetRow[] {
  const along = (matrix: readonly (readonly number[])[]): number => Math.max(0, slopes.reduce((sum, a, i) => sum + slopes.reduce((inner, b, j) => inner + a * b * (matrix[i]?.[j] as number), 0), 0));
  const carried = units.map(along);
  const squares = carried.map((one, a) => one * (sizes[a] as number));
  const ownDoubt = causes.map((_, a) => (doubt[a]?.[a] as number) / (sizes[a] as number) ** 2);
  const apart = squares.reduce((sum, square, a) => (square > 0 ? sum + square ** 2 * (ownDoubt[a] as number) : sum), 0);
  const together = carried.reduce((sum, one, a) => sum + carried.reduce((inner, other, b) => inner + one * other * (doubt[a]?.[b] as number), 0), 0);
  const whole = squares.reduce((sum, square) => sum + square, 0);
  const factor = apart === 0 || together <= 0 ? 1 : Math.min(together, (2 * whole ** 2) / leastFreedom) / apart;
  const grown = whole === 0 ? 1 : 1 + along(lost) / whole;
  return causes.flatMap((cause, a) => (squares[a] === 0 ? [] : [{ cause, effect: Math.sqrt((squares[a] as number) * grown), sharedBy: null, degreesOfFreedom: 2 / ((ownDoubt[a] as number) * factor) }]));
}

/**
 * A smooth function of a fit's parameters, with the correlation of its parameters and the shared causes kept apart.
 *
 *   u² = Σ θ_a m_a + gᵀ lost g + Σ (gᵀ shift)²,  m_a = gᵀ C_a g        over the unshared causes a, then the shared ones
 *   ν = 2 (Σ θ_a m_a)² / ΣΣ m_a R_ab m_b        of the unshared causes together, R the doubt of the θ
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
  const alone = scatter === null ? [] : [{ ...(scatter as BudgetRow), effect: Math.sqrt(Math.max(0, own)) }];
  return estimateFrom(value, unit, method, [...(fit.own === undefined ? alone : ownRows(fit.own, slopes)), ...shared.values()]);
}
