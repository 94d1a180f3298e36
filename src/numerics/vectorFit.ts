import { curveFit } from "./curveFit.ts";
import type { CurveFit } from "./curveFit.ts";
import { rememberLast } from "./rememberLast.ts";

/** A model that gives all predictions at once, and what is believed of its parameters. */
export interface VectorProblem {
  /** all predictions at a parameter vector; NaN where the model has no answer */
  readonly predict: (parameters: readonly number[]) => ArrayLike<number>;
  /** ∂prediction/∂parameter: one column a parameter, one value a datum */
  readonly slopes: (parameters: readonly number[]) => readonly ArrayLike<number>[];
  readonly y: readonly number[];
  /** of each y, > 0 */
  readonly standardUncertainties: readonly number[];
  readonly start: readonly number[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  /** normal beliefs, one a parameter; or none at all */
  readonly priors: readonly { readonly mean: number; readonly sd: number }[];
  /** left out: as many as it takes */
  readonly maximumSteps?: number;
}

/** The fit of data and beliefs together. */
export interface VectorFit extends Omit<CurveFit, "residuals"> {
  /** y − prediction, of the data alone */
  readonly residuals: readonly number[];
  /** ∂prediction/∂parameter at the solution, one row a datum */
  readonly jacobian: readonly (readonly number[])[];
}

/**
 * Weighted least squares of a model that predicts all data at once, with normal beliefs as further data.
 *
 *   minimise Σ ((yᵢ − fᵢ(p))/uᵢ)² + Σ ((pⱼ − mⱼ)/sⱼ)²        covariance = (JᵀJ + diag(1/s²))⁻¹
 *
 * The most probable parameters and the curvature there. Units as the model's.
 *
 * @param problem   predict, slopes, y, standardUncertainties, start, lower, upper, priors
 * @returns         as `curveFit`, with degrees of freedom of the data alone (their number: beliefs pay for the parameters), and the slopes
 * @throws          RangeError as `curveFit`, or if the model does not give one prediction a datum
 * @source          maximum a posteriori estimate with a normal prior; textbook
 * @checked         tests/numerics/vectorFit.test.ts
 */
export function vectorFit(problem: VectorProblem): VectorFit {
  const { y, start, lower, upper, priors } = problem;
  const count = y.length;
  const predictions = rememberLast((p) => {
    const all = problem.predict(p);
    if (all.length !== count) throw new RangeError(`vectorFit: expected ${count} predictions, found ${all.length}`);
    return all;
  });
  const slopes = rememberLast((p) => {
    const columns = problem.slopes(p);
    return Array.from({ length: count }, (_, i) => columns.map((column) => column[i] as number));
  });
  const fit = curveFit({
    x: Array.from({ length: count + priors.length }, (_, i) => i),
    y: [...y, ...priors.map(({ mean }) => mean)],
    standardUncertainties: [...problem.standardUncertainties, ...priors.map(({ sd }) => sd)],
    model: (i, p) => (i < count ? (predictions(p)[i] as number) : (p[i - count] as number)),
    jacobian: (i, p) => (i < count ? (slopes(p)[i] as number[]) : p.map((_, j) => (j === i - count ? 1 : 0))),
    start, lower, upper,
    ...(problem.maximumSteps === undefined ? {} : { maximumSteps: problem.maximumSteps }),
  });
  return { ...fit, degreesOfFreedom: count, residuals: fit.residuals.slice(0, count), jacobian: slopes(fit.parameters) };
}
