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
  /** brings a step that left the distribution's bounds back inside, as a mirror at the bound does; left out: such steps are not taken */
  readonly fold?: (x: readonly number[]) => number[];
  /** a cheap likeness of ln p: each step is then as many steps of a walk through the likeness, and the true p is asked once for them all */
  readonly likeness?: { readonly logDensity: (x: readonly number[]) => number; readonly steps: number };
  readonly random: Random;
}

/** share of steps taken that lets a walk in several dimensions get on best */
const bestAcceptance = 0.234;
/** the shape is learned anew at these shares of the warm-up, each time from the later half of what was walked so far … */
const lessons = [0.25, 0.5];
/** … where that half holds this many steps a dimension: a shape from fewer is worse than the guess */
const leastLesson = 100;

interface At {
  readonly x: readonly number[];
  readonly density: number;
}

/**
 * Metropolis sampling of a distribution known up to a factor.
 *
 *   x' = x + λ L z,  L Lᵀ = covariance, z normal;  taken with probability min(1, p(x')/p(x))
 *   with a likeness q: x' after several such steps through q, taken with min(1, p(x') q(x)/(p(x) q(x')))
 *
 * The walk through q is reversible in q, so the draws are of p whatever q is; where q is nearly p they are nearly
 * independent. λ begins at 2.38/√n and is tuned to a share of 0.234 taken, during the warm-up only: after it the walk is a
 * plain Markov chain. Unit of the draws: that of the start. Same seed, same draws.
 *
 * @param logDensity   ln p up to a constant; −Infinity or NaN where p is zero
 * @param options      start (p > 0 there), covariance, steps, warm-up, fold, likeness, random
 * @returns            the draws and the share of steps taken
 * @throws             RangeError if the covariance is not positive definite, p is zero at the start, or a count is out of range
 * @source             N. Metropolis et al. 1953; G. O. Roberts, A. Gelman and W. R. Gilks, Ann. Appl. Prob. 7 (1997) 110 for 2.38 and 0.234; H. Haario et al. 2001 for the shape; likeness: J. S. Liu, Monte Carlo Strategies in Scientific Computing, surrogate transition method; from memory
 * @checked            tests/numerics/metropolis.test.ts
 */
export function metropolisChain(logDensity: (x: readonly number[]) => number, options: ChainOptions): Chain {
  const { start, steps, warmUp, random, fold = (x) => [...x], likeness } = options;
  const n = start.length;
  if (!(Number.isInteger(steps) && steps >= 1 && Number.isInteger(warmUp) && warmUp >= 0)) throw new RangeError(`metropolisChain: expected whole numbers of steps ≥ 1 and of warm-up ≥ 0, found ${steps} and ${warmUp}`);
  let shape = cholesky(options.covariance);
  if (shape === null || shape.length !== n) throw new RangeError("metropolisChain: expected a positive definite covariance of the start's size");
  let at: At = { x: [...start], density: logDensity(start) };
  if (!(at.density > -Infinity)) throw new RangeError("metropolisChain: the density is zero at the start");
  let size = 2.38 / Math.sqrt(n);
  let tuned = 0;
  /** one step of the plain walk through a density */
  const walk = (from: At, density: (x: readonly number[]) => number, tuning: boolean): At => {
    const x = fold(moved(from.x, shape as number[][], size, Array.from({ length: n }, () => random.normal())));
    const to = { x, density: density(x) };
    const chance = chanceOf(to.density - from.density);
    if (tuning) size *= Math.exp((chance - bestAcceptance) / (1 + tuned++ / (10 * n)) ** 0.6);
    return random.uniform() < chance ? to : from;
  };
  const learned: (readonly number[])[] = [];
  const draws: (readonly number[])[] = [];
  let taken = 0;
  for (let step = 0; step < warmUp + steps; step++) {
    const tuning = step < warmUp;
    const before = at;
    if (likeness === undefined) at = walk(at, logDensity, tuning);
    else {
      const from = { x: at.x, density: likeness.logDensity(at.x) };
      let to: At = from;
      for (let k = 0; k < likeness.steps; k++) to = walk(to, likeness.logDensity, tuning);
      const density = logDensity(to.x);
      if (random.uniform() < chanceOf(density - at.density + from.density - to.density)) at = { x: to.x, density };
    }
    if (!tuning) {
      draws.push(at.x);
      if (at !== before) taken++;
      continue;
    }
    learned.push(at.x);
    if (!lessons.some((share) => step + 1 === Math.ceil(share * warmUp)) || learned.length < 2 * leastLesson * n) continue;
    const better = cholesky(covarianceOf(learned.slice(learned.length >> 1)));
    // A walk that hardly moved has no shape to teach.
    if (better !== null) [shape, size, tuned] = [better, 2.38 / Math.sqrt(n), 0];
  }
  return { draws, acceptance: taken / steps };
}

function chanceOf(logRatio: number): number {
  return Number.isNaN(logRatio) ? 0 : Math.min(1, Math.exp(logRatio));
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
