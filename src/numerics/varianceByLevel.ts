import { leastSquares } from "./linearAlgebra.ts";

/** The variance within one group, and where the group lies. */
export interface GroupVariance {
  readonly variance: number;
  /** members less one */
  readonly degreesOfFreedom: number;
  readonly level: number;
}

/** A variance and how well it is known. */
export interface KnownVariance {
  readonly variance: number;
  readonly degreesOfFreedom: number;
}

/** A variance that changes with the level. */
export interface VarianceLaw {
  readonly at: (level: number) => KnownVariance;
  /** ln of the likelihood, up to a constant that all laws through the same variances share */
  readonly logLikelihood: number;
}

const mostSteps = 100;
const settled = 1e-8;
/** a change of ln σ² in one step that is believed */
const farthest = 2;

/**
 * Variance that changes with the level: one law for all groups, each counted by its degrees of freedom.
 *
 *   ln σ² = a + b x        s_g² ~ σ²(x_g) χ²_ν/ν_g        by maximum likelihood
 *   ν(x) = 2/h,  h = (1, x)(XᵀWX)⁻¹(1, x)ᵀ,  W = diag(ν_g/2)        h: variance of the fitted ln σ²
 *
 * With b = 0 it is the pooled variance with Σ ν_g degrees of freedom; the second constant costs most at the ends. Beyond
 * the levels of the groups the law is not followed: the end stands.
 *
 * @param groups   at least three of different levels, not all without variance
 * @returns        variance and its degrees of freedom at a level [square of the data's unit], and the likelihood; null where there is no such law
 * @source         generalised linear model with gamma errors and logarithmic link: P. McCullagh and J. A. Nelder, Generalized Linear Models, 2nd ed., chapters 8 and 10; relation of precision and level as in ISO 5725-2, 7.5; both from memory
 * @checked        tests/numerics/varianceByLevel.test.ts
 */
export function varianceByLevel(groups: readonly GroupVariance[]): VarianceLaw | null {
  const levels = groups.map(({ level }) => level);
  const [low, high] = [Math.min(...levels), Math.max(...levels)];
  if (new Set(levels).size < 3 || !groups.some(({ variance }) => variance > 0)) return null;
  const place = (level: number): number => (2 * (Math.min(high, Math.max(low, level)) - low)) / (high - low) - 1;
  const rows = levels.map((level) => [1, place(level)]);
  const weights = groups.map(({ degreesOfFreedom }) => degreesOfFreedom / 2);
  const whole = groups.reduce((sum, { variance, degreesOfFreedom }) => sum + variance * degreesOfFreedom, 0) / groups.reduce((sum, { degreesOfFreedom }) => sum + degreesOfFreedom, 0);
  let [a, b] = [Math.log(whole), 0];
  for (let step = 0; step < mostSteps; step++) {
    const off = groups.map(({ variance }, i) => variance / Math.exp(a + b * (rows[i]?.[1] as number)) - 1);
    const { solution, covarianceFactor } = leastSquares(rows, off, weights);
    const [da, db] = solution.map((change) => Math.max(-farthest, Math.min(farthest, change))) as [number, number];
    [a, b] = [a + da, b + db];
    if (!Number.isFinite(a + b)) return null;
    if (Math.abs(da) + Math.abs(db) > settled) continue;
    const [[aa, ab], [, bb]] = covarianceFactor as [[number, number], [number, number]];
    const varianceAt = (level: number): number => Math.exp(a + b * place(level));
    return {
      at: (level) => ({ variance: varianceAt(level), degreesOfFreedom: 2 / (aa + 2 * ab * place(level) + bb * place(level) ** 2) }),
      logLikelihood: -0.5 * groups.reduce((sum, { variance, degreesOfFreedom, level }) => sum + degreesOfFreedom * (Math.log(varianceAt(level)) + variance / varianceAt(level)), 0),
    };
  }
  return null;
}
