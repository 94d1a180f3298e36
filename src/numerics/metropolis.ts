import { cholesky } from "./linearAlgebra.ts";
import type { Random } from "./random.ts";

/** A walk through a distribution. */
export interface Chain {
  /** one row a step after the warm-up */
  readonly draws: readonly (readonly number[])[];
  /** share of proposed steps that were taken after the warm-up */
  readonly acceptance: number;
}

export interface ChainOptions {
  readonly start: readonly number[];
  /** guess of the distribution's covariance: it shapes the steps; n × n, positive definite */
  readonly covariance: readonly (readonly number[])[];
  /** steps kept, ≥ 1 */
  readonly steps: number;
  /** steps before them, during which the steps' size and shape are tuned; ≥ 0 */
  readonly warmUp: number;
  readonly random: Random;
}

/** share of steps taken that lets a walk in several dimensions get on best */
const bestAcceptance = 0.234;
/** shape is learned from the second quarter of the warm-up and used in its second half */
const shapeFrom = 0.25;
const shapeTo = 0.5;

/**
 * Random-walk Metropolis sampling of a distribution known up to a factor.
 *
 *   x' = x + λ L z,  L Lᵀ = covariance, z normal;  taken with probability min(1, p(x')/p(x))
 *
 * λ begins at 2.38/√n and is tuned to a share of 0.234 taken, during the warm-up only: after it the walk is a plain
 * Markov chain. Unit of the draws: that of the start. Same seed, same draws.
 *
 * @param logDensity   ln p up to a constant; −Infinity or NaN where p is zero
 * @param options      start (p > 0 there), covariance, steps, warm-up, random
 * @returns            the draws and the share of steps taken
 * @throws             RangeError if the covariance is not positive definite, p is zero at the start, or a count is out of range
 * @source             N. Metropolis et al. 1953; G. O. Roberts, A. Gelman and W. R. Gilks, Ann. Appl. Prob. 7 (1997) 110 for 2.38 and 0.234; H. Haario et al. 2001 for the shape; from memory
 * @checked            tests/numerics/metropolis.test.ts
 */
export function metropolisChain(logDensity: (x: readonly number[]) => number, options: ChainOptions): Chain {
  const { start, steps, warmUp, random } = options;
  const n = start.length;
  if (!(Number.isInteger(steps) && steps >= 1 && Number.isInteger(warmUp) && warmUp >= 0)) throw new RangeError(`metropolisChain: expected whole numbers of steps ≥ 1 and of warm-up ≥ 0, found ${steps} and ${warmUp}`);
  let shape = cholesky(options.covariance);
  if (shape === null || shape.length !== n) throw new RangeError("metropolisChain: expected a positive definite covariance of the start's size");
  let x = [...start];
  let density = logDensity(x);
  if (!(density > -Infinity)) throw new RangeError("metropolisChain: the density is zero at the start");
  let size = 2.38 / Math.sqrt(n);
  const learned: number[][] = [];
  const draws: number[][] = [];
  let taken = 0;
  for (let step = 0; step < warmUp + steps; step++) {
    const z = Array.from({ length: n }, () => random.normal());
    const proposal = x.map((value, i) => value + size * (shape as number[][])[i]!.reduce((sum, factor, j) => (j <= i ? sum + factor * (z[j] as number) : sum), 0));
    const proposed = logDensity(proposal);
    const chance = Number.isNaN(proposed) ? 0 : Math.min(1, Math.exp(proposed - density));
    const take = random.uniform() < chance;
    if (take) [x, density] = [proposal, proposed];
    if (step >= warmUp) {
      draws.push(x);
      if (take) taken++;
      continue;
    }
    size *= Math.exp((chance - bestAcceptance) / (1 + step / (10 * n)) ** 0.6);
    if (step >= shapeFrom * warmUp && step < shapeTo * warmUp) learned.push(x);
    if (step + 1 === Math.ceil(shapeTo * warmUp) && learned.length > 20 * n) {
      const better = cholesky(covarianceOf(learned));
      // A walk that hardly moved has no shape to teach.
      if (better !== null) [shape, size] = [better, 2.38 / Math.sqrt(n)];
    }
  }
  return { draws, acceptance: taken / steps };
}

/**
 * Covariance of rows of draws.
 *
 * @param rows   at least two rows of equal length
 * @returns      the matrix, divided by the number of rows less one
 * @source       definition
 * @checked      tests/numerics/metropolis.test.ts
 */
export function covarianceOf(rows: readonly (readonly number[])[]): number[][] {
  const n = rows[0]?.length ?? 0;
  const means = Array.from({ length: n }, (_, i) => rows.reduce((sum, row) => sum + (row[i] as number), 0) / rows.length);
  return means.map((a, i) => means.map((b, j) => rows.reduce((sum, row) => sum + ((row[i] as number) - a) * ((row[j] as number) - b), 0) / (rows.length - 1)));
}
