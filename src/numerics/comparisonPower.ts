import { fQuantile, studentTQuantile } from "./distributions.ts";
import { noncentralFCdf, noncentralTCdf } from "./noncentral.ts";

/**
 * Chance that an F test finds an effect that is there.
 *
 *   1 − P(F ≤ F_(1−α; u, v)),  λ = f² (u + v + 1)
 *
 * f² is the variance that the effect makes over the variance within. Groups alike in size: u = k − 1, v = k (n − 1),
 * f = spread of the true means over the scatter of single runs; of two groups f is half their difference in scatters.
 *
 * @param u        degrees of freedom of the effect, > 0
 * @param v        degrees of freedom of the scatter, > 0
 * @param f2       f², ≥ 0
 * @param chance   α, chance of an alarm without an effect
 * @returns        the power, 0 … 1
 * @source         J. Cohen, Statistical Power Analysis for the Behavioral Sciences, chapters 8 and 9 (from memory)
 * @checked        tests/numerics/comparisonPower.test.ts
 */
export function effectPower(u: number, v: number, f2: number, chance: number): number {
  return 1 - noncentralFCdf(fQuantile(1 - chance, u, v), u, v, f2 * (u + v + 1));
}

/**
 * Chance that a t test finds a difference that is there.
 *
 *   δ = d √(n₁ n₂/(n₁ + n₂)), ν = n₁ + n₂ − 2;  one sample, or pairs:  δ = d √n, ν = n − 1
 *
 * @param difference   d, over the scatter of single runs (of pairs: of their differences)
 * @param counts       runs of the one, or of both
 * @param chance       α, chance of an alarm without a difference
 * @param sides        2 where either may be greater, 1 where only a greater first counts
 * @returns            the power, 0 … 1
 * @throws             RangeError without a degree of freedom
 * @source             J. Cohen, Statistical Power Analysis for the Behavioral Sciences, chapter 2 (from memory)
 * @checked            tests/numerics/comparisonPower.test.ts
 */
export function differencePower(difference: number, counts: readonly [number] | readonly [number, number], chance: number, sides: 1 | 2): number {
  const [first, second] = counts;
  const dof = second === undefined ? first - 1 : first + second - 2;
  if (!(dof > 0)) throw new RangeError(`differencePower: expected a degree of freedom, found ${dof}`);
  const delta = difference * Math.sqrt(second === undefined ? first : (first * second) / (first + second));
  const limit = studentTQuantile(1 - chance / sides, dof);
  const above = 1 - noncentralTCdf(limit, dof, delta);
  return sides === 1 ? above : above + noncentralTCdf(-limit, dof, delta);
}

/**
 * Repeats of every wheel after which a difference between wheels is found with a stated power.
 *
 *   the n with effectPower(k − 1, k (n − 1), f², α) = power; k groups of n runs
 *
 * For planning: the scatter of single runs must be known from elsewhere, as a day's repeatability gives it. Not a whole
 * number: go up to the next.
 *
 * @param effect   f, spread of the true means over the scatter of single runs; of two wheels half their difference over it
 * @param groups   k, wheels compared, at least 2
 * @param power    wanted, above the chance and below 1
 * @param chance   α
 * @returns        n, above 1; NaN where a million runs do not do
 * @throws         RangeError if an argument is out of its range
 * @source         J. Cohen, Statistical Power Analysis for the Behavioral Sciences, chapters 2 and 8 (from memory)
 * @checked        tests/numerics/comparisonPower.test.ts
 */
export function repeatsNeeded(effect: number, groups: number, power = 0.8, chance = 0.05): number {
  if (!(effect > 0 && groups >= 2 && chance > 0 && power > chance && power < 1)) throw new RangeError(`repeatsNeeded: expected an effect above 0, two groups or more and a power between the chance and 1, found ${effect}, ${groups}, ${power}, ${chance}`);
  const reached = (n: number): boolean => effectPower(groups - 1, groups * (n - 1), effect ** 2, chance) >= power;
  let [low, high] = [1.01, 2];
  while (!reached(high)) {
    if (high > 1e6) return Number.NaN;
    [low, high] = [high, 2 * high];
  }
  while (high - low > 1e-7 * high) {
    const middle = (low + high) / 2;
    if (reached(middle)) high = middle;
    else low = middle;
  }
  return high;
}
