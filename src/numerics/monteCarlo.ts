import { seededRandom } from "./random.ts";
import type { Random } from "./random.ts";
import { mean, standardDeviation } from "./statistics.ts";

/** When trials end, and what they are to give. */
export interface MonteCarloOptions {
  readonly seed: number;
  /** figures of the standard uncertainty that must stand still */
  readonly digits: 1 | 2;
  /** of the coverage interval, 0 … 1 */
  readonly probability: number;
  /** trials after which it ends in any case */
  readonly most: number;
}

/** A distribution found by trials. */
export interface MonteCarloResult {
  readonly mean: number;
  readonly standardUncertainty: number;
  /** probabilistically symmetric interval */
  readonly low: number;
  readonly high: number;
  readonly trials: number;
  /** numerical tolerance of the standard uncertainty: half a unit in the last of the figures asked for */
  readonly tolerance: number;
  /** false = `most` trials did not make the figures stand still */
  readonly settled: boolean;
}

/** Trials of one batch: a coverage interval of 95 % of so many is known to about one part in a hundred. */
const batch = 10_000;

/**
 * Distribution of a quantity by trials, as many as its figures need.
 *
 *   batches of 10⁴ until twice the standard error of the batches' mean, standard deviation and both ends is below δ
 *   δ = ½ · 10^l, where u = c · 10^l has as many figures in c as asked for
 *
 * Unit of the quantity. The same seed gives the same result.
 *
 * @param trial   one value of the quantity from random numbers
 * @param options seed, figures, coverage, largest number of trials
 * @returns       mean, standard deviation and coverage interval of all trials
 * @throws        RangeError if a trial gives no number
 * @source        JCGM 101:2008, 7.9 (adaptive procedure)
 * @checked       tests/numerics/monteCarlo.test.ts
 */
export function monteCarlo(trial: (random: Random) => number, { seed, digits, probability, most }: MonteCarloOptions): MonteCarloResult {
  const random = seededRandom(seed);
  const all: number[] = [];
  const batches: (readonly [mean: number, u: number, low: number, high: number])[] = [];
  for (;;) {
    const values = Float64Array.from({ length: batch }, () => trial(random));
    if (values.some(Number.isNaN)) throw new RangeError("monteCarlo: a trial gave no number");
    for (const value of values) all.push(value);
    batches.push([mean(values), standardDeviation(values), ...ends(values.sort(), probability)]);
    const u = standardDeviation(all);
    const tolerance = toleranceOf(u, digits);
    const settled = batches.length > 1 && [0, 1, 2, 3].every((which) => (2 * standardDeviation(batches.map((one) => one[which] as number))) / Math.sqrt(batches.length) <= tolerance);
    if (!settled && all.length + batch <= most) continue;
    const [low, high] = ends(Float64Array.from(all).sort(), probability);
    return { mean: mean(all), standardUncertainty: u, low, high, trials: all.length, tolerance, settled };
  }
}

function ends(sorted: Float64Array, probability: number): [number, number] {
  const covered = Math.round(probability * sorted.length);
  const first = Math.floor((sorted.length - covered) / 2);
  return [sorted[first] as number, sorted[Math.min(sorted.length - 1, first + covered)] as number];
}

/**
 * Numerical tolerance of a standard uncertainty.
 *
 *   u = c · 10^l with a whole number c of so many figures;   δ = ½ · 10^l
 *
 * Unit of u.
 *
 * @param u      standard uncertainty; 0 gives 0
 * @param digits figures of c
 * @returns      δ
 * @source       JCGM 101:2008, 7.9.2
 * @checked      tests/numerics/monteCarlo.test.ts
 */
export function toleranceOf(u: number, digits: 1 | 2): number {
  if (u === 0) return 0;
  const exponent = Math.floor(Math.log10(Number(u.toPrecision(digits)))) - (digits - 1);
  return 0.5 * 10 ** exponent;
}
