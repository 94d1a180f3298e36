import { fCdf } from "./distributions.ts";
import { studentizedRangeCdf, studentizedRangeQuantile } from "./studentizedRange.ts";

/** Sums of squares between and within groups, and what they say. */
export interface Anova {
  readonly between: { readonly sumOfSquares: number; readonly degreesOfFreedom: number; readonly meanSquare: number };
  readonly within: { readonly sumOfSquares: number; readonly degreesOfFreedom: number; readonly meanSquare: number };
  readonly f: number;
  /** chance of such an F or a greater one where all groups have one mean */
  readonly probability: number;
  /** share of the sum of squares that lies between the groups */
  readonly rSquared: number;
}

/**
 * One-way analysis of variance: whether groups differ by more than their own scatter explains.
 *
 *   F = [Σ nᵢ (x̄ᵢ − x̄)² / (k − 1)] / [ΣΣ (xᵢⱼ − x̄ᵢ)² / (N − k)]
 *
 * Squares in the unit of the values squared; F dimensionless. Independent values of equal variance, normal within groups.
 * Deviations are taken from the first value, so that a large common part does not swallow the digits.
 *
 * @param groups at least two, each with a value, together more values than groups
 * @returns      sums of squares, F and its probability; F is NaN where nothing scatters at all
 * @throws       RangeError if there are too few groups or values
 * @source       NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.3 (from memory)
 * @checked      tests/numerics/anova.test.ts
 */
export function oneWayAnova(groups: readonly (readonly number[])[]): Anova {
  const k = groups.length;
  const count = groups.reduce((sum, group) => sum + group.length, 0);
  if (k < 2 || groups.some((group) => group.length === 0) || count <= k) throw new RangeError(`oneWayAnova: expected at least two groups with values, and more values than groups, found ${k} groups and ${count} values`);
  const origin = (groups[0] as readonly number[])[0] as number;
  const shifted = groups.map((group) => group.map((value) => value - origin));
  const means = shifted.map((group) => group.reduce((sum, value) => sum + value, 0) / group.length);
  const grand = means.reduce((sum, mean, i) => sum + mean * (shifted[i] as number[]).length, 0) / count;
  const betweenSquares = means.reduce((sum, mean, i) => sum + (shifted[i] as number[]).length * (mean - grand) ** 2, 0);
  const withinSquares = shifted.reduce((sum, group, i) => sum + squaresAbout(group, means[i] as number), 0);
  const between = { sumOfSquares: betweenSquares, degreesOfFreedom: k - 1, meanSquare: betweenSquares / (k - 1) };
  const within = { sumOfSquares: withinSquares, degreesOfFreedom: count - k, meanSquare: withinSquares / (count - k) };
  const f = between.meanSquare / within.meanSquare;
  return { between, within, f, probability: Number.isNaN(f) ? Number.NaN : fCdf(1 / f, count - k, k - 1), rSquared: betweenSquares / (betweenSquares + withinSquares) };
}

/** The second sum takes out the rounding of the mean. */
function squaresAbout(values: readonly number[], mean: number): number {
  const rest = values.reduce((sum, value) => sum + value - mean, 0);
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) - rest ** 2 / values.length;
}

/** Difference of two groups' means among several. */
export interface PairDifference {
  readonly first: number;
  readonly second: number;
  /** mean of the second less mean of the first */
  readonly difference: number;
  readonly low: number;
  readonly high: number;
  /** chance of such a difference or a greater one among any pair, where all groups have one mean */
  readonly probability: number;
}

/**
 * All pairs of groups compared at once, so that together they err no oftener than stated (Tukey; Kramer for unequal sizes).
 *
 *   x̄ⱼ − x̄ᵢ ± q(p; k, N − k) √(MS_within/2 · (1/nᵢ + 1/nⱼ))
 *
 * Unit of the values. Holds where oneWayAnova holds; for unequal sizes slightly on the safe side.
 *
 * @param groups      as for oneWayAnova
 * @param probability of all intervals together, 0 … 1
 * @returns           every pair, in order
 * @throws            RangeError as oneWayAnova
 * @source            NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.7.1
 * @checked           tests/numerics/anova.test.ts
 */
export function tukeyDifferences(groups: readonly (readonly number[])[], probability: number): PairDifference[] {
  const { within } = oneWayAnova(groups);
  const k = groups.length;
  const q = studentizedRangeQuantile(probability, k, within.degreesOfFreedom);
  const mean = (group: readonly number[]): number => group.reduce((sum, value) => sum + value, 0) / group.length;
  return groups.flatMap((a, first) =>
    groups.slice(first + 1).map((b, further) => {
      const difference = mean(b) - mean(a);
      const scale = Math.sqrt((within.meanSquare / 2) * (1 / a.length + 1 / b.length));
      return { first, second: first + 1 + further, difference, low: difference - q * scale, high: difference + q * scale, probability: 1 - studentizedRangeCdf(Math.abs(difference) / scale, k, within.degreesOfFreedom) };
    }),
  );
}
