import { normalCdf } from "./distributions.ts";
import { incompleteBeta, logGamma } from "./specialFunctions.ts";

/** terms of the Poisson mixtures smaller than this are left out */
const smallest = 1e-15;

/** Σ of weight(j) · value(j) from the middle of a Poisson distribution outwards, until its terms vanish on either side. */
function poissonMixture(mean: number, logWeight: (j: number) => number, value: (j: number) => number): number {
  const middle = Math.floor(mean);
  let sum = 0;
  for (const step of [1, -1]) {
    for (let j = step === 1 ? middle : middle - 1; j >= 0; j += step) {
      const weight = Math.exp(logWeight(j));
      sum += weight * value(j);
      if (weight < smallest) break;
    }
  }
  return sum;
}

/**
 * Cumulative F distribution off centre: of the ratio of mean squares when there is an effect.
 *
 *   P(F ≤ f) = Σ_j e^(−λ/2) (λ/2)^j/j! · I_x(u/2 + j, v/2),   x = u f/(u f + v)
 *
 * @param f        ≥ 0
 * @param u        degrees of freedom above, > 0
 * @param v        degrees of freedom below, > 0
 * @param lambda   λ, sum of squared effects over the variance, ≥ 0
 * @returns        probability of a ratio ≤ f
 * @throws         RangeError if an argument is out of its range
 * @source         Johnson, Kotz & Balakrishnan, Continuous Univariate Distributions 2, chapter 30 (from memory)
 * @checked        tests/numerics/comparisonPower.test.ts
 */
export function noncentralFCdf(f: number, u: number, v: number, lambda: number): number {
  if (!(f >= 0 && u > 0 && v > 0 && lambda >= 0)) throw new RangeError(`noncentralFCdf: expected f and λ of at least 0 and degrees of freedom above 0, found ${f}, ${lambda}, ${u}, ${v}`);
  const x = (u * f) / (u * f + v);
  const at = (j: number): number => incompleteBeta(u / 2 + j, v / 2, x, v / (u * f + v)).lower;
  return lambda === 0 ? at(0) : poissonMixture(lambda / 2, (j) => j * Math.log(lambda / 2) - lambda / 2 - logGamma(j + 1), at);
}

/**
 * Cumulative Student t distribution off centre: of the ratio when the true difference is δ standard errors.
 *
 *   P(T ≤ t) = Φ(−δ) + ½ Σ_j [p_j I_x(j + ½, ν/2) + q_j I_x(j + 1, ν/2)],   x = t²/(t² + ν),  t ≥ 0
 *   p_j = e^(−δ²/2) (δ²/2)^j/j!      q_j = δ/√2 · e^(−δ²/2) (δ²/2)^j/Γ(j + 3/2)
 *
 * @param t       ratio; below zero by P(T ≤ t; δ) = 1 − P(T ≤ −t; −δ)
 * @param dof     ν > 0
 * @param delta   δ
 * @returns       probability of a ratio ≤ t
 * @throws        RangeError if ν is not above 0
 * @source        R. V. Lenth, Applied Statistics 38 (1989) 185, algorithm AS 243 (from memory)
 * @checked       tests/numerics/comparisonPower.test.ts
 */
export function noncentralTCdf(t: number, dof: number, delta: number): number {
  if (!(dof > 0)) throw new RangeError(`noncentralTCdf: expected degrees of freedom above 0, found ${dof}`);
  if (t < 0) return 1 - noncentralTCdf(-t, dof, -delta);
  const [x, y] = [(t * t) / (t * t + dof), dof / (t * t + dof)];
  const half = (delta * delta) / 2;
  const sum = (shift: number): number => poissonMixture(half, (j) => (j === 0 ? 0 : j * Math.log(half)) - half - logGamma(j + shift), (j) => incompleteBeta(j + shift - 0.5, dof / 2, x, y).lower);
  return normalCdf(-delta) + 0.5 * (sum(1) + (delta / Math.SQRT2) * sum(1.5));
}
