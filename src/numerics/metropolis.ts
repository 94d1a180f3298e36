import type { Random } from "./random.ts";

/** A place of a walk and ln p there. */
export interface WalkPlace {
  readonly x: readonly number[];
  readonly density: number;
}

/** How a walk steps. */
export interface WalkOptions {
  /** L of the steps' covariance L Lᵀ, lower triangle */
  readonly factor: readonly (readonly number[])[];
  /** λ, their size; 2.38/√n suits a distribution whose covariance is L Lᵀ */
  readonly size: number;
  /** ≥ 1 */
  readonly steps: number;
  /** brings a step that left the distribution's bounds back inside, as mirrors at the bounds do; left out: such steps are not taken */
  readonly fold?: (x: number[]) => number[];
  readonly random: Random;
}

/** share of steps taken that lets a walk in several dimensions get on best */
const bestAcceptance = 0.234;

/**
 * A Metropolis walk through a distribution known up to a factor.
 *
 *   x' = x + λ L z,  z normal;  taken with probability min(1, p(x')/p(x))
 *
 * A plain Markov chain as long as λ and L stay as they are. Unit of x: the caller's. Same random numbers, same walk.
 *
 * @param logDensity   ln p up to a constant; −Infinity or NaN where p is zero
 * @param from         where it begins, ln p with it, above −Infinity
 * @param options      shape, size and number of the steps, fold, random
 * @returns            where it ends, and how many steps were taken
 * @source             N. Metropolis et al. 1953; G. O. Roberts, A. Gelman and W. R. Gilks, Ann. Appl. Prob. 7 (1997) 110 for 2.38; from memory
 * @checked            tests/numerics/metropolis.test.ts
 */
export function metropolisWalk(logDensity: (x: readonly number[]) => number, from: WalkPlace, { factor, size, steps, fold = (x) => x, random }: WalkOptions): WalkPlace & { readonly taken: number } {
  let { x, density } = from;
  let taken = 0;
  const n = x.length;
  const z = new Float64Array(n);
  for (let step = 0; step < steps; step++) {
    for (let i = 0; i < n; i++) z[i] = random.normal();
    const moved = new Array<number>(n);
    for (let i = 0; i < n; i++) {
      const row = factor[i] as readonly number[];
      let sum = 0;
      for (let j = 0; j <= i; j++) sum += (row[j] as number) * (z[j] as number);
      moved[i] = (x[i] as number) + size * sum;
    }
    const to = fold(moved);
    const there = logDensity(to);
    if (!isTaken(there - density, random)) continue;
    [x, density] = [to, there];
    taken++;
  }
  return { x, density, taken };
}

/**
 * Whether a step is taken that changes ln p by so much.
 *
 * @param logRatio   ln p' − ln p; NaN = no
 * @param random     one number is drawn
 * @returns          true with probability min(1, e^ratio)
 * @source           N. Metropolis et al. 1953
 * @checked          tests/numerics/metropolis.test.ts
 */
export function isTaken(logRatio: number, random: Random): boolean {
  return random.uniform() < Math.exp(logRatio);
}

/**
 * The size of a walk's steps after some of them, nearer to what lets it get on best.
 *
 *   λ' = λ e^(g (share taken − 0.234))
 *
 * @param size      λ
 * @param share     share of steps taken with it
 * @param gain      g; let it fall while tuning
 * @returns         λ'
 * @source          G. O. Roberts, A. Gelman and W. R. Gilks, Ann. Appl. Prob. 7 (1997) 110 for 0.234, from memory
 * @checked         tests/numerics/metropolis.test.ts
 */
export function tunedSize(size: number, share: number, gain: number): number {
  return size * Math.exp(gain * (share - bestAcceptance));
}

/**
 * A value as mirrors at two bounds show it.
 *
 * @param value   any finite value
 * @param low     lower bound; −Infinity = none
 * @param high    upper bound, above it; Infinity = none
 * @returns       the value, if need be mirrored until it is inside
 * @source        geometry
 * @checked       tests/numerics/metropolis.test.ts
 */
export function mirrored(value: number, low: number, high: number): number {
  if (value >= low && value <= high) return value;
  if (low === -Infinity || high === Infinity) return value < low ? 2 * low - value : 2 * high - value;
  const span = high - low;
  const past = Math.abs((value - low) % (2 * span));
  return past <= span ? low + past : low + 2 * span - past;
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
