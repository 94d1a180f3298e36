import { normalCdf, normalQuantile, studentTQuantile } from "./distributions.ts";

/** places of ln χ²/ν over which the spread of the estimated part is averaged; beyond them lies less than 10⁻⁴ of a factor */
const logs = Array.from({ length: 121 }, (_, i) => -18 + i / 6);
/** steps of 1/ν and of the known share between which factors are interpolated */
const steps = 32;

/**
 * Coverage factor of a sum of two normal parts, of which one has its variance from ν degrees of freedom and one is known.
 *
 *   k = k_w^q k_s^(1−q),  q = u_k²/u²      k_w = t(ν_eff),  ν_eff = ν u⁴/u_e⁴
 *   k_s: P(|u_e T_ν + u_k Z| ≤ k_s u) = p,  u = √(u_e² + u_k²)
 *
 * k_w takes the shares of the two as known: where the estimated part comes out small by chance, it counts as unimportant, and
 * over all samples the interval holds less than p. k_s holds more than p, as T_ν allows for spreads that the known part would
 * show. Each counts as its part does. At p = 0.95 and ν = 2, k_w holds 92.1 to 95, k_s 95.3 to 97.6 and k 94.2 to 95.6 % over
 * all shares; from ν = 3 on k holds 95 to 95.5 %. For ν → ∞, and where one part is alone, all three are one.
 *
 * @param estimated          standard uncertainty of the part known from ν, ≥ 0
 * @param degreesOfFreedom   ν > 0, Infinity allowed
 * @param known              standard uncertainty of the other, ≥ 0
 * @param probability        p, two-sided, 0 … 1
 * @returns                  k of their root sum of squares [1]; NaN when both are zero
 * @throws                   RangeError if the probability is outside 0 … 1 or ν is not above zero
 * @source                   k_w: JCGM 100:2008, G.4; k_s: JCGM 101:2008, 6.4.9 (t-distribution) and 7; the way between them is a choice of this project, held by simulation
 * @checked                  tests/numerics/studentSum.test.ts
 */
export function studentSumFactor(estimated: number, degreesOfFreedom: number, known: number, probability: number): number {
  const variance = estimated ** 2 + known ** 2;
  if (variance === 0) return Number.NaN;
  const effective = estimated === 0 ? Infinity : (degreesOfFreedom * variance ** 2) / estimated ** 4;
  const alone = studentTQuantile((1 + probability) / 2, effective);
  const inverse = 1 / degreesOfFreedom;
  if (estimated === 0 || known === 0 || !(inverse <= 1) || inverse < 1 / steps) return alone;
  const share = known ** 2 / variance;
  return alone ** share * interpolated(inverse, share, probability) ** (1 - share);
}

const tables = new Map<number, Map<number, number>>();

/** k_s between the corners of a table that is filled as it is asked for. */
function interpolated(inverse: number, share: number, probability: number): number {
  const table = tables.get(probability) ?? new Map<number, number>();
  tables.set(probability, table);
  const corner = (i: number, j: number): number => {
    const key = i * (steps + 1) + j;
    const found = table.get(key) ?? Math.log(sumFactor(i / steps, j / steps, probability));
    table.set(key, found);
    return found;
  };
  const [x, y] = [inverse * steps, share * steps];
  const [i, j] = [Math.min(steps - 1, Math.floor(x)), Math.min(steps - 1, Math.floor(y))];
  const [a, b] = [x - i, y - j];
  return Math.exp((1 - a) * ((1 - b) * corner(i, j) + b * corner(i, j + 1)) + a * ((1 - b) * corner(i + 1, j) + b * corner(i + 1, j + 1)));
}

/** k_s for parts whose variances add up to one: T_ν is normal of a spread that is drawn by χ²/ν. */
function sumFactor(inverse: number, share: number, probability: number): number {
  if (inverse === 0 || share === 1) return normalQuantile((1 + probability) / 2);
  if (share === 0) return studentTQuantile((1 + probability) / 2, 1 / inverse);
  // density of y = ln χ²/ν, but for a constant: e^(ν (y − e^y)/2)
  const weights = logs.map((y) => Math.exp((y - Math.exp(y) + 1) / (2 * inverse)));
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const spreads = logs.map((y) => Math.sqrt((1 - share) * Math.exp(-y) + share));
  const within = (k: number): number => spreads.reduce((sum, spread, i) => sum + (weights[i] as number) * (2 * normalCdf(k / spread) - 1), 0) / whole;
  let [low, high] = [normalQuantile((1 + probability) / 2) / 2, 2 * studentTQuantile((1 + probability) / 2, 1 / inverse)];
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2;
    if (within(middle) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
