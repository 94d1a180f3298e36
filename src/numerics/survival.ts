import { fQuantile } from "./distributions.ts";
import type { Life } from "./weibullFit.ts";

/**
 * Share of specimens that outlive each failure, estimated step by step (product limit).
 *
 *   S(t) = Π over failures up to t of (1 − failed now / at risk now)
 *
 * Unit of `at`: that of the lives. A specimen taken off at the moment of a failure counts as at risk there.
 *
 * @param lives  failed and censored specimens
 * @returns      S just after each life at which something failed, in rising order
 * @source       E. L. Kaplan and P. Meier, J. Am. Stat. Assoc. 53 (1958) 457, from memory
 * @checked      tests/numerics/survival.test.ts
 */
export function productLimit(lives: readonly Life[]): { readonly at: number; readonly survival: number }[] {
  const steps = [...new Set(lives.filter((life) => life.failed).map((life) => life.value))].sort((a, b) => a - b);
  let survival = 1;
  return steps.map((at) => {
    const atRisk = lives.filter((life) => life.value >= at).length;
    const failed = lives.filter((life) => life.failed && life.value === at).length;
    survival *= 1 - failed / atRisk;
    return { at, survival };
  });
}

/**
 * Median of the share of specimens that have failed at the i-th of n failures.
 *
 *   median of Beta(i, n − i + 1) = i f / (i f + n − i + 1),  f = F(0.5; 2i, 2(n − i + 1))
 *
 * @param rank   i, from 1
 * @param count  n ≥ i
 * @returns      the share, 0 … 1
 * @throws       RangeError if rank and count are not whole numbers with 1 ≤ rank ≤ count
 * @source       quantile identity of the beta and F distributions, from memory
 * @checked      tests/numerics/survival.test.ts
 */
export function medianRank(rank: number, count: number): number {
  if (!(Number.isInteger(rank) && Number.isInteger(count) && rank >= 1 && rank <= count)) throw new RangeError(`medianRank: expected whole numbers with 1 ≤ rank ≤ count, found ${rank} of ${count}`);
  const rest = count - rank + 1;
  const f = fQuantile(0.5, 2 * rank, 2 * rest);
  return (rank * f) / (rank * f + rest);
}
