import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { BudgetRow, Estimate } from "../../core/estimate.ts";
import type { Unit } from "../../core/units.ts";
import { cholesky, leastSquares } from "../../numerics/linearAlgebra.ts";

/** A six-axis sensor's reading at rest with the wheel lifted, at one attitude. */
export interface StaticReading {
  /** nose up positive [rad] */
  readonly tiltRad: number;
  readonly pullN: number;
  readonly loadN: number;
  readonly torqueNm: number | null;
}

/** What static readings say hangs below the sensor, and what the sensor reads of nothing. */
export interface StaticTare {
  /** w, weight of what hangs below the sensor */
  readonly weight: Estimate<"N">;
  /** q_x = w · (centre of mass ahead of the sensor's origin) */
  readonly forward: Estimate<"N.m">;
  /** q_z = w · (centre of mass above it) */
  readonly up: Estimate<"N.m">;
  readonly bias: { readonly pullN: number; readonly loadN: number; readonly torqueNm: number };
}

const shared = "static readings of the tare";

/**
 * Bias of the sensor, weight and centre of mass of what hangs below it, by least squares from readings at three or more attitudes.
 *
 *   P = b_P − w sin α        L = b_L − w cos α        T = b_T − q_x cos α + q_z sin α
 *
 * [N], [N·m]. Covariance from the stated uncertainty of a reading, enlarged by √(χ²/ν) where the readings scatter more than that.
 *
 * @param readings         at three different attitudes or more
 * @param forceUncertainty of one force reading, bias excepted [N]
 * @param torqueUncertainty the same of torque [N·m]; null = torque was not read
 * @returns                w, q and the biases; q is not determined without torque readings
 * @throws                 RangeError below three readings
 * @source                 linear least squares; model: static equilibrium, common practice of tool-weight identification
 * @checked                tests/processing/measures/staticTare.test.ts
 */
export function staticTare(readings: readonly StaticReading[], forceUncertainty: number, torqueUncertainty: number | null): StaticTare {
  const forces = weighted(
    readings.flatMap(({ tiltRad }) => [[1, 0, -Math.sin(tiltRad)], [0, 1, -Math.cos(tiltRad)]]),
    readings.flatMap(({ pullN, loadN }) => [pullN, loadN]),
    forceUncertainty,
  );
  const [pullN, loadN, weightN] = forces.solution as [number, number, number];
  const weight = determined(weightN, "N", [row("weight", Math.sqrt(forces.covariance[2]?.[2] ?? Number.NaN), forces.degreesOfFreedom)]);
  if (torqueUncertainty === null || readings.some(({ torqueNm }) => torqueNm === null)) {
    const reason = "no torque was read at the tare's attitudes";
    return { weight, forward: undetermined("N.m", reason), up: undetermined("N.m", reason), bias: { pullN, loadN, torqueNm: Number.NaN } };
  }
  const turning = weighted(readings.map(({ tiltRad }) => [1, -Math.cos(tiltRad), Math.sin(tiltRad)]), readings.map(({ torqueNm }) => torqueNm as number), torqueUncertainty);
  const [torqueNm, forward, up] = turning.solution as [number, number, number];
  // The two moments err together: rows of the covariance's triangular root keep that in the budget.
  const root = cholesky(turning.covariance.slice(1).map((line) => line.slice(1)));
  const rows = (which: 0 | 1): BudgetRow[] => [0, 1].map((cause) => row(`moment ${cause + 1}`, root?.[which]?.[cause] ?? Number.NaN, turning.degreesOfFreedom));
  return { weight, forward: determined(forward, "N.m", rows(0)), up: determined(up, "N.m", rows(1)), bias: { pullN, loadN, torqueNm } };
}

function weighted(matrix: readonly (readonly number[])[], y: readonly number[], uncertainty: number) {
  const fit = leastSquares(matrix, y);
  const degreesOfFreedom = y.length - (matrix[0]?.length ?? 0);
  const excess = degreesOfFreedom > 0 ? fit.residuals.reduce((sum, residual) => sum + (residual / uncertainty) ** 2, 0) / degreesOfFreedom : 0;
  const variance = uncertainty ** 2 * Math.max(1, excess);
  // Enlarged by the readings' own scatter, the covariance is known no better than that scatter.
  return { solution: fit.solution, covariance: fit.covarianceFactor.map((line) => line.map((value) => value * variance)), degreesOfFreedom: excess > 1 ? degreesOfFreedom : Infinity };
}

function row(what: string, effect: number, degreesOfFreedom: number): BudgetRow {
  return { cause: `${shared}, ${what}`, effect, sharedBy: shared, degreesOfFreedom };
}

function determined<U extends Unit>(value: number, unit: U, rows: readonly BudgetRow[]): Estimate<U> {
  if (!Number.isFinite(value) || rows.some(({ effect }) => !Number.isFinite(effect))) return undetermined(unit, "the tare's attitudes lie too near each other");
  return estimateFrom(value, unit, "least squares over the static readings", rows);
}
