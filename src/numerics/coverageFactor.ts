import { normalCdf, normalQuantile } from "./distributions.ts";
import { studentSumFactor } from "./studentSum.ts";

/**
 * Coverage factor of a sum of a normal and a rectangular part: k with P(|R + N| ≤ k u) = p.
 *
 *   P(|R + N| ≤ c) = (σ/a) [G((c + a)/σ) − G((c − a)/σ)] − 1,   G(x) = x Φ(x) + φ(x),   k = c / √(σ² + a²/3)
 *
 * A rectangular part ends at its bounds, so where it dominates k is below that of a normal distribution: 1.65 instead of
 * 1.96 for 95 %. Where part of what is normal is itself estimated, σ is widened by k/z, k from `studentSumFactor`. Dimensionless.
 *
 * @param estimated          standard uncertainty of what is normal and estimated with ν degrees of freedom, ≥ 0
 * @param degreesOfFreedom   ν, > 0, Infinity allowed
 * @param known              standard uncertainty of what else is normal, ≥ 0
 * @param rectangular        standard uncertainty of the rectangular part, ≥ 0: its half-width a over √3
 * @param probability        0 … 1, two-sided
 * @returns                  k; NaN when both parts are zero
 * @throws                   RangeError if the probability is outside 0 … 1 or ν is not above zero
 * @source                   convolution of the two densities; the case is that of JCGM 101:2008, 9.2.4
 * @checked                  tests/numerics/coverageFactor.test.ts
 */
export function coverageFactor(estimated: number, degreesOfFreedom: number, known: number, rectangular: number, probability: number): number {
  const tail = (1 + probability) / 2;
  const normal = Math.hypot(estimated, known);
  const t = normal === 0 ? Number.NaN : studentSumFactor(estimated, degreesOfFreedom, known, probability);
  const a = Math.sqrt(3) * rectangular;
  const sigma = normal === 0 ? 0 : (normal * t) / normalQuantile(tail);
  // A bound far inside the normal part's own width changes nothing that can be computed.
  if (a < 1e-4 * sigma) return t;
  const total = Math.hypot(normal, rectangular);
  if (sigma < 1e-9 * a) return (probability * a) / total;
  const within = (c: number): number => (sigma / a) * (antiderivative((c + a) / sigma) - antiderivative((c - a) / sigma)) - 1;
  let low = 0;
  let high = a + sigma * normalQuantile(1 - (1 - tail) / 4);
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (within(middle) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2 / total;
}

/** ∫ Φ */
function antiderivative(x: number): number {
  return x * normalCdf(x) + Math.exp(-(x * x) / 2) / Math.sqrt(2 * Math.PI);
}
