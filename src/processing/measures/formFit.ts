import { curveFit } from "../../numerics/curveFit.ts";
import { effectiveSampleSize, lag1Autocorrelation } from "../../numerics/statistics.ts";

/** One point of a press curve. */
export interface FormPoint {
  readonly x: number;
  readonly y: number;
}

/** A constant of a form: where to begin, and what it can be. */
export interface FormConstant {
  readonly start: number;
  readonly lower: number;
  readonly upper: number;
}

/** A form through the points of one run. */
export interface FormFit {
  readonly values: readonly number[];
  /** from the scatter about the curve, neighbouring points counted once where they move together */
  readonly covariance: readonly (readonly number[])[];
  readonly residuals: readonly number[];
  readonly effectivePoints: number;
  /** which constants rest at a bound; their rows of the covariance are zero */
  readonly atBound: readonly boolean[];
}

/**
 * A form through the points of one press run by least squares in y.
 *
 *   minimise Σ (y − f(x, p))²      covariance × n/n_eff, from the lag-1 correlation of the residuals
 *
 * A constant that runs to its bound rests there, and the others are fitted again without it.
 *
 * @param points      x rising, at least two more than constants
 * @param form        f(x, p)
 * @param constants   start and bounds of each; the starts also set their scales
 * @returns           null when there are too few points, the fit does not settle, or every constant rests at a bound
 * @source            as `fittedShearCurve`: least squares with the effective number of autocorrelated points, common practice
 * @checked           tests/processing/measures/saturatingCurve.test.ts
 */
export function formFit(points: readonly FormPoint[], form: (x: number, p: readonly number[]) => number, constants: readonly FormConstant[]): FormFit | null {
  return fitFree(points, form, constants, constants.map(() => null));
}

function fitFree(points: readonly FormPoint[], form: (x: number, p: readonly number[]) => number, constants: readonly FormConstant[], resting: readonly (number | null)[]): FormFit | null {
  const free = [...constants.keys()].filter((i) => resting[i] === null);
  if (free.length === 0 || points.length < free.length + 2) return null;
  const start = free.map((i) => (constants[i] as FormConstant).start);
  const whole = (p: readonly number[]): number[] => resting.map((rest, i) => rest ?? (p[free.indexOf(i)] as number) * (constants[i] as FormConstant).start);
  const bound = (which: "lower" | "upper"): number[] => free.map((i, k) => (constants[i] as FormConstant)[which] / (start[k] as number));
  const result = curveFit({ model: (x, p) => form(x, whole(p)), x: points.map(({ x }) => x), y: points.map(({ y }) => y), start: free.map(() => 1), lower: bound("lower"), upper: bound("upper") });
  const values = whole(result.parameters);
  if (result.atLimit.some((limit) => limit)) return fitFree(points, form, constants, resting.map((rest, i) => rest ?? (result.atLimit[free.indexOf(i)] === true ? (values[i] as number) : null)));
  if (!result.converged) return null;
  const rough = points.reduce((most, { y }) => Math.max(most, Math.abs(y)), 0);
  // without scatter there is nothing whose neighbours could move together
  const effectivePoints = result.residualSd > 1e-12 * rough ? Math.max(2, effectiveSampleSize(points.length, lag1Autocorrelation(result.residuals))) : points.length;
  const inflate = points.length / effectivePoints;
  const covariance = constants.map((a, i) => constants.map((b, j) => (resting[i] === null && resting[j] === null ? (result.covariance[free.indexOf(i)]?.[free.indexOf(j)] ?? Number.NaN) * inflate * a.start * b.start : 0)));
  return { values, covariance, residuals: result.residuals, effectivePoints, atBound: resting.map((rest) => rest !== null) };
}
