import { curveFit } from "./curveFit.ts";
import type { CurveFit } from "./curveFit.ts";

/** A model that gives all predictions at once, and what is believed of its parameters. */
export interface VectorProblem {
  /** all predictions at a parameter vector; NaN where the model has no answer */
  readonly predict: (parameters: readonly number[]) => ArrayLike<number>;
  readonly y: readonly number[];
  /** of each y, > 0 */
  readonly standardUncertainties: readonly number[];
  readonly start: readonly number[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  /** normal beliefs, one a parameter */
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

/** Step of the difference quotient as a share of the prior's sd: a belief's width is the parameter's natural scale. */
const stepShare = 1e-4;

/**
 * Weighted least squares of a model that predicts all data at once, with normal beliefs as further data.
 *
 *   minimise Σ ((yᵢ − fᵢ(p))/uᵢ)² + Σ ((pⱼ − mⱼ)/sⱼ)²        covariance = (JᵀJ + diag(1/s²))⁻¹
 *
 * The most probable parameters and the curvature there. Units as the model's.
 *
 * @param problem   predict, y, standardUncertainties, start, lower, upper, priors
 * @returns         as `curveFit`, with degrees of freedom of the data alone (their number: beliefs pay for the parameters), and the slopes
 * @throws          RangeError as `curveFit`, or if the model does not give one prediction a datum
 * @source          maximum a posteriori estimate with a normal prior; textbook
 * @checked         tests/numerics/vectorFit.test.ts
 */
export function vectorFit(problem: VectorProblem): VectorFit {
  const { predict, y, start, lower, upper, priors } = problem;
  const count = y.length;
  const predictions = remembered(predict, count);
  const slopes = rememberedSlopes(predictions, { lower, upper, priors });
  const fit = curveFit({
    x: Array.from({ length: count + start.length }, (_, i) => i),
    y: [...y, ...priors.map(({ mean }) => mean)],
    standardUncertainties: [...problem.standardUncertainties, ...priors.map(({ sd }) => sd)],
    model: (i, p) => (i < count ? (predictions(p)[i] as number) : (p[i - count] as number)),
    jacobian: (i, p) => (i < count ? (slopes(p)[i] as number[]) : p.map((_, j) => (j === i - count ? 1 : 0))),
    start, lower, upper,
    ...(problem.maximumSteps === undefined ? {} : { maximumSteps: problem.maximumSteps }),
  });
  return { ...fit, degreesOfFreedom: count, residuals: fit.residuals.slice(0, count), jacobian: slopes(fit.parameters) };
}

/** Calls the model once per parameter vector, however often single data ask. */
function remembered(predict: VectorProblem["predict"], count: number): (p: readonly number[]) => ArrayLike<number> {
  let at: readonly number[] = [];
  let last: ArrayLike<number> = [];
  return (p) => {
    if (!same(p, at)) {
      last = predict(p);
      if (last.length !== count) throw new RangeError(`vectorFit: expected ${count} predictions, found ${last.length}`);
      at = [...p];
    }
    return last;
  };
}

function rememberedSlopes(predictions: (p: readonly number[]) => ArrayLike<number>, { lower, upper, priors }: Pick<VectorProblem, "lower" | "upper" | "priors">): (p: readonly number[]) => number[][] {
  let at: readonly number[] = [];
  let last: number[][] = [];
  return (p) => {
    if (same(p, at)) return last;
    const columns = p.map((value, j) => {
      const step = stepShare * (priors[j] as { sd: number }).sd;
      const [above, below] = [Math.min(upper[j] as number, value + step), Math.max(lower[j] as number, value - step)];
      const high = predictions(p.map((other, k) => (k === j ? above : other)));
      const low = predictions(p.map((other, k) => (k === j ? below : other)));
      return Array.from(high, (value, i) => (value - (low[i] as number)) / (above - below));
    });
    last = Array.from({ length: columns[0]?.length ?? 0 }, (_, i) => columns.map((column) => column[i] as number));
    at = [...p];
    return last;
  };
}

function same(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((value, i) => value === b[i]);
}
