import { studentTQuantile } from "./distributions.ts";
import { mean, standardDeviation } from "./statistics.ts";

/**
 * Grubbs' test for one outlying value among normal ones.
 *
 *   G = max|xᵢ − x̄| / s,   critical (n − 1)/√n · √(t²/(n − 2 + t²)),   t = t(1 − α/(2n); n − 2)
 *
 * Dimensionless. Says that a value stands apart, not that it is wrong: nothing is left out for this alone.
 *
 * @param samples at least three values that do not all agree
 * @param alarm   α, chance of an alarm on sound values, two-sided
 * @returns       which value stands furthest out, its G and the critical one
 * @throws        RangeError if there are fewer than three values
 * @source        Grubbs, Technometrics 11 (1969) 1; NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1 (from memory)
 * @checked       tests/numerics/grubbs.test.ts
 */
export function grubbsTest(samples: readonly number[], alarm: number): { readonly index: number; readonly g: number; readonly critical: number } {
  const n = samples.length;
  if (n < 3) throw new RangeError(`grubbsTest: expected at least three values, found ${n}`);
  const centre = mean(samples);
  const distances = samples.map((value) => Math.abs(value - centre));
  const index = distances.indexOf(Math.max(...distances));
  const t = studentTQuantile(1 - alarm / (2 * n), n - 2);
  return { index, g: (distances[index] as number) / standardDeviation(samples), critical: ((n - 1) / Math.sqrt(n)) * Math.sqrt(t ** 2 / (n - 2 + t ** 2)) };
}
