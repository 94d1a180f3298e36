import { normalCdf } from "./distributions.ts";
import { logGamma } from "./specialFunctions.ts";

/** Step of the trapezoids over the standard normal deviate; of a smooth density they err by far less than rounding. */
const step = 0.125;
const reach = 8.5;
const deviates = Array.from({ length: Math.round((2 * reach) / step) + 1 }, (_, i) => -reach + i * step);
const densities = deviates.map((z) => Math.exp(-(z * z) / 2) / Math.sqrt(2 * Math.PI));
const below = deviates.map(normalCdf);
/** Parts of a density this far below its greatest one add nothing. */
const negligible = 1e-17;

/**
 * Cumulative distribution of the studentised range: the range of k standard normal deviates over an independent standard
 * deviation with ν degrees of freedom.
 *
 *   P(Q ≤ q) = ∫₀^∞ f(s) H(q s) ds,   H(w) = k ∫ φ(z) [Φ(z) − Φ(z − w)]^(k−1) dz
 *
 * Dimensionless; f is the density of √(χ²_ν/ν). Both integrals by trapezoids, the outer one over ln s. Error below 1e-8.
 *
 * @param q                value, ≥ 0
 * @param groups           k, a whole number ≥ 2
 * @param degreesOfFreedom ν > 0, Infinity allowed
 * @returns                probability of a value ≤ q
 * @throws                 RangeError if an argument is out of its range
 * @source                 definition; Copenhaver & Holland, J. Stat. Comput. Simul. 30 (1988) 1 (from memory)
 * @checked                tests/numerics/studentizedRange.test.ts
 */
export function studentizedRangeCdf(q: number, groups: number, degreesOfFreedom: number): number {
  if (!(q >= 0)) throw new RangeError(`studentizedRangeCdf: expected a value of at least 0, found ${q}`);
  if (!Number.isInteger(groups) || groups < 2) throw new RangeError(`studentizedRangeCdf: expected at least 2 groups, found ${groups}`);
  if (!(degreesOfFreedom > 0)) throw new RangeError(`studentizedRangeCdf: expected degrees of freedom above 0, found ${degreesOfFreedom}`);
  if (q === 0) return 0;
  if (degreesOfFreedom === Infinity) return rangeCdf(q, groups);
  const v = degreesOfFreedom;
  const logScale = Math.LN2 + (v / 2) * Math.log(v / 2) - logGamma(v / 2);
  const density = (u: number): number => Math.exp(logScale + v * u - (v * Math.exp(2 * u)) / 2);
  const outer = 0.2 / Math.sqrt(2 * v);
  const least = negligible * density(0);
  let sum = 0;
  for (let u = 0; density(u) > least; u += outer) sum += density(u) * rangeCdf(q * Math.exp(u), groups);
  for (let u = -outer; density(u) > least; u -= outer) sum += density(u) * rangeCdf(q * Math.exp(u), groups);
  return Math.min(1, sum * outer);
}

/** H(w) */
function rangeCdf(w: number, groups: number): number {
  let sum = 0;
  for (let i = 0; i < deviates.length; i++) sum += (densities[i] as number) * ((below[i] as number) - normalCdf((deviates[i] as number) - w)) ** (groups - 1);
  return Math.min(1, groups * sum * step);
}

/**
 * Quantile of the studentised range: the q with P(Q ≤ q) = p.
 *
 * Dimensionless.
 *
 * @param probability      0 … 1, ends excluded
 * @param groups           k, a whole number ≥ 2
 * @param degreesOfFreedom ν > 0, Infinity allowed
 * @returns                q
 * @throws                 RangeError if an argument is out of its range
 * @source                 definition
 * @checked                tests/numerics/studentizedRange.test.ts
 */
export function studentizedRangeQuantile(probability: number, groups: number, degreesOfFreedom: number): number {
  if (!(probability > 0 && probability < 1)) throw new RangeError(`studentizedRangeQuantile: expected a probability between 0 and 1, found ${probability}`);
  let low = 0;
  let high = 4;
  while (studentizedRangeCdf(high, groups, degreesOfFreedom) < probability) [low, high] = [high, 2 * high];
  for (let i = 0; i < 34; i++) {
    const middle = (low + high) / 2;
    if (studentizedRangeCdf(middle, groups, degreesOfFreedom) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
