import { studentTCdf } from "./distributions.ts";
import { mean, standardDeviation } from "./statistics.ts";

/** A difference of means held against its own scatter. */
export interface TTest {
  readonly difference: number;
  readonly standardError: number;
  readonly t: number;
  readonly degreesOfFreedom: number;
  /** two-sided chance of such a t or one further from zero where there is no difference */
  readonly probability: number;
}

/**
 * Welch's comparison of two independent samples whose variances may differ.
 *
 *   t = (x̄ − ȳ)/√(s_x²/n + s_y²/m),   ν = (s_x²/n + s_y²/m)² / [(s_x²/n)²/(n − 1) + (s_y²/m)²/(m − 1)]
 *
 * Difference in the samples' unit. Normal values, or means of many.
 *
 * @param first  at least two values
 * @param second at least two values
 * @returns      first less second; t is NaN where neither scatters
 * @throws       RangeError if a sample holds fewer than two values
 * @source       Welch, Biometrika 34 (1947) 28; Satterthwaite, Biometrics Bull. 2 (1946) 110 (from memory)
 * @checked      tests/numerics/tTests.test.ts
 */
export function welchTest(first: readonly number[], second: readonly number[]): TTest {
  if (first.length < 2 || second.length < 2) throw new RangeError(`welchTest: expected at least two values each, found ${first.length} and ${second.length}`);
  const a = standardDeviation(first) ** 2 / first.length;
  const b = standardDeviation(second) ** 2 / second.length;
  return judged(mean(first) - mean(second), Math.sqrt(a + b), (a + b) ** 2 / (a ** 2 / (first.length - 1) + b ** 2 / (second.length - 1)));
}

/**
 * Comparison of pairs: two wheels on the same beds, one wheel before and after.
 *
 *   d = x − y,   t = d̄ / (s_d/√n),   ν = n − 1
 *
 * Difference in the samples' unit. What both of a pair share drops out.
 *
 * @param first  at least two values
 * @param second as many, in the same order
 * @returns      first less second; t is NaN where no difference scatters
 * @throws       RangeError if the samples differ in length or hold fewer than two values
 * @source       Student, Biometrika 6 (1908) 1
 * @checked      tests/numerics/tTests.test.ts
 */
export function pairedTest(first: readonly number[], second: readonly number[]): TTest {
  if (first.length !== second.length || first.length < 2) throw new RangeError(`pairedTest: expected as many values in both samples and at least two, found ${first.length} and ${second.length}`);
  const differences = first.map((value, i) => value - (second[i] as number));
  return judged(mean(differences), standardDeviation(differences) / Math.sqrt(differences.length), differences.length - 1);
}

function judged(difference: number, standardError: number, degreesOfFreedom: number): TTest {
  const t = standardError === 0 ? Number.NaN : difference / standardError;
  return { difference, standardError, t, degreesOfFreedom, probability: Number.isNaN(t) ? Number.NaN : 2 * studentTCdf(-Math.abs(t), degreesOfFreedom) };
}
