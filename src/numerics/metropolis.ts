import { cholesky } from "./linearAlgebra.ts";
import type { Random } from "./random.ts";

/** A walk through a distribution. */
export interface Chain {
  /** one row a step after the warm-up */
  readonly draws: readonly (readonly number[])[];
  /** share of proposed steps that were taken after the warm-up */
  readonly acceptance: number;
}

/** Where a walk begins, how it steps and how long it is. */
export interface ChainOptions {
  readonly start: readonly number[];
  /** guess of the distribution's covariance: it shapes the steps; n × n, positive definite */
  readonly covariance: readonly (readonly number[])[];
  /** steps kept, ≥ 1 */
  readonly steps: number;
  /** steps before them, during which the steps' size and shape are tuned; ≥ 0 */
  readonly warmUp: number;
  /** share of the kept steps that are proposed afresh from what the warm-up learned, wherever the walk stands; 0 … 1, left out: none */
  readonly freshShare?: number;
  readonly random: Random;
}

/** share of steps taken that lets a walk in several dimensions get on best */
const bestAcceptance = 0.234;
/** shape is learned from the second quarter of the warm-up and used in its second half */
const shapeFrom = 0.25;
const shapeTo = 0.5;
/** degrees of freedom of the fresh proposals: their tails must reach at least as far as the distribution's */
const freshFreedom = 6;

/**
 * Metropolis sampling of a distribution known up to a factor: a random walk, mixed with fresh proposals.
 *
 *   walk: x' = x + λ L z,  L Lᵀ = covariance, z normal;  taken with probability min(1, p(x')/p(x))
 *   fresh: x' = m + L t, t Student's with 6 degrees of freedom;  taken with min(1, p(x') q(x)/(p(x) q(x')))
 *
 * m and L of the fresh proposals are learned in the warm-up. λ begins at 2.38/√n and is tuned to a share of 0.234 taken, during the warm-up only: after it the walk is a plain
 * Markov chain. Unit of the draws: that of the start. Same seed, same draws.
 *
 * @param logDensity   ln p up to a constant; −Infinity or NaN where p is zero
 * @param options      start (p > 0 there), covariance, steps, warm-up, random
 * @returns            the draws and the share of steps taken
 * @throws             RangeError if the covariance is not positive definite, p is zero at the start, or a count is out of range
 * @source             N. Metropolis et al. 1953; G. O. Roberts, A. Gelman and W. R. Gilks, Ann. Appl. Prob. 7 (1997) 110 for 2.38 and 0.234; H. Haario et al. 2001 for the shape; fresh proposals: L. Tierney, Ann. Statist. 22 (1994) 1701; from memory
 * @checked            tests/numerics/metropolis.test.ts
 */
export function metropolisChain(logDensity: (x: readonly number[]) => number, options: ChainOptions): Chain {
  const { start, steps, warmUp, random } = options;
  const n = start.length;
  if (!(Number.isInteger(steps) && steps >= 1 && Number.isInteger(warmUp) && warmUp >= 0)) throw new RangeError(`metropolisChain: expected whole numbers of steps ≥ 1 and of warm-up ≥ 0, found ${steps} and ${warmUp}`);
  let shape = cholesky(options.covariance);
  if (shape === null || shape.length !== n) throw new RangeError("metropolisChain: expected a positive definite covariance of the start's size");
  let x: readonly number[] = [...start];
  let density = logDensity(x);
  if (!(density > -Infinity)) throw new RangeError("metropolisChain: the density is zero at the start");
  let size = 2.38 / Math.sqrt(n);
  let fresh: Fresh | null = null;
  const learned: (readonly number[])[] = [];
  const draws: (readonly number[])[] = [];
  let taken = 0;
  for (let step = 0; step < warmUp + steps; step++) {
    const anew: Fresh | null = step >= warmUp && fresh !== null && random.uniform() < (options.freshShare ?? 0) ? fresh : null;
    const proposal = anew === null ? moved(x, shape, size, Array.from({ length: n }, () => random.normal())) : anew.draw(random);
    const proposed = logDensity(proposal);
    const ratio = proposed - density + (anew === null ? 0 : anew.logDensity(x) - anew.logDensity(proposal));
    const chance = Number.isNaN(ratio) ? 0 : Math.min(1, Math.exp(ratio));
    const take = random.uniform() < chance;
    if (take) [x, density] = [proposal, proposed];
    if (step >= warmUp) {
      draws.push(x);
      if (take) taken++;
      continue;
    }
    size *= Math.exp((chance - bestAcceptance) / (1 + step / (10 * n)) ** 0.6);
    if (step >= shapeFrom * warmUp) learned.push(x);
    const half = step + 1 === Math.ceil(shapeTo * warmUp);
    if ((half || step + 1 === warmUp) && learned.length > 20 * n) {
      const better = cholesky(covarianceOf(learned));
      // A walk that hardly moved has no shape to teach.
      if (better === null) continue;
      if (half) [shape, size] = [better, 2.38 / Math.sqrt(n)];
      fresh = freshFrom(learned, better);
    }
  }
  return { draws, acceptance: taken / steps };
}

/** Proposals that do not depend on where the walk stands. */
interface Fresh {
  readonly draw: (random: Random) => number[];
  /** up to a constant */
  readonly logDensity: (x: readonly number[]) => number;
}

function freshFrom(rows: readonly (readonly number[])[], factor: readonly (readonly number[])[]): Fresh {
  const n = factor.length;
  const centre = Array.from({ length: n }, (_, i) => rows.reduce((sum, row) => sum + (row[i] as number), 0) / rows.length);
  return {
    draw: (random) => {
      const z = Array.from({ length: n }, () => random.normal());
      let square = 0;
      for (let k = 0; k < freshFreedom; k++) square += random.normal() ** 2;
      return moved(centre, factor, Math.sqrt(freshFreedom / square), z);
    },
    logDensity: (x) => {
      // L y = x − m, row by row
      const y: number[] = [];
      for (let i = 0; i < n; i++) y.push(((x[i] as number) - (centre[i] as number) - y.reduce((sum, value, j) => sum + ((factor[i] as readonly number[])[j] as number) * value, 0)) / ((factor[i] as readonly number[])[i] as number));
      return (-(freshFreedom + n) / 2) * Math.log1p(y.reduce((sum, value) => sum + value * value, 0) / freshFreedom);
    },
  };
}

/** x + size · L z */
function moved(x: readonly number[], factor: readonly (readonly number[])[], size: number, z: readonly number[]): number[] {
  return x.map((value, i) => {
    let sum = 0;
    for (let j = 0; j <= i; j++) sum += ((factor[i] as readonly number[])[j] as number) * (z[j] as number);
    return value + size * sum;
  });
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
