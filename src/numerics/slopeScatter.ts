import { discreteFourier } from "./spectrum.ts";

/**
 * Standard error of the slope of a fitted straight line whose residuals are not independent of each other.
 *
 *   u² = Σ_k |R_k|² |W_k|² / (n² (1 − s_k))        k = 1 … n − 1
 *
 * R is the Fourier transform of the residuals, W that of the weights w_i = t_i / Σt² by which the residuals enter the
 * slope, s_k = |W_k|² / (n Σw²) the share of frequency k that fitting the line has taken away. Each frequency counts with
 * a phase of its own, so a ripple that comes back to its place, a wander and white noise all get what they do to the slope.
 * For white noise u² is σ²/Σt² on average. Holds for residuals that are alike all along the line (stationary).
 *
 * Degrees of freedom by Welch–Satterthwaite over the frequencies, two to each, less what the line took.
 *
 * @param residuals  mean residuals in equal parts of the line, in order; at least 4
 * @param length     length of the whole line, in the abscissa's unit
 * @returns          standard error [residual unit per abscissa unit] and its degrees of freedom; Infinity for a perfect line
 * @throws           RangeError if there are fewer than 4 residuals
 * @source           Wiener–Khinchin theorem; degrees of freedom by JCGM 100:2008, G.4.1
 * @checked          tests/numerics/slopeScatter.test.ts
 */
export function slopeScatter(residuals: readonly number[], length: number): { readonly standardError: number; readonly degreesOfFreedom: number } {
  const n = residuals.length;
  if (n < 4) throw new RangeError(`slopeScatter: expected at least 4 residuals, found ${n}`);
  const times = residuals.map((_, i) => ((i + 0.5) / n - 0.5) * length);
  const squares = times.reduce((sum, time) => sum + time * time, 0);
  const weights = discreteFourier(times.map((time) => time / squares));
  const spectrum = discreteFourier(residuals);
  let variance = 0;
  let fourth = 0;
  // Frequencies k and n − k are one: a real signal has no other phase there.
  for (let k = 1; 2 * k <= n; k++) {
    const weight = power(weights, k);
    const left = 1 - (weight * squares) / n;
    const pair = 2 * k === n ? 1 : 2;
    const part = (pair * power(spectrum, k) * weight) / (n * n * left);
    variance += part;
    fourth += part ** 2 / (pair * left);
  }
  return { standardError: Math.sqrt(variance), degreesOfFreedom: fourth > 0 ? variance ** 2 / fourth : Infinity };
}

function power(transform: readonly number[], k: number): number {
  return (transform[2 * k] as number) ** 2 + (transform[2 * k + 1] as number) ** 2;
}
