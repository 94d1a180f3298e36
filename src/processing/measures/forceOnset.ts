import { mean } from "../../numerics/statistics.ts";

/** Where a force set in, and what is left open about it. */
export interface ForceOnset {
  /** [m] */
  readonly at: number;
  /** standard uncertainty from this log's noise [m] */
  readonly random: number;
  /** standard uncertainty from the power, alike in all logs of presses that seat alike [m] */
  readonly shape: number;
}

/** powers along which a force may set in, all alike likely: a square root in firm ground or a stiff seat, more than a line in loose soil */
const powers = { least: 0.5, most: 1.3, count: 9 } as const;
/** places tried between the bounds */
const places = 120;
/** samples beyond which neighbours are taken together */
const mostSamples = 60;

/**
 * Where a force set in that rises from there along a power nobody knows.
 *
 *   F = a (x − x₀)^m for x > x₀, else 0        p(x₀, m) ∝ exp(−min_a Σ (Fᵢ − a fᵢ)² / 2s²),   m = 0.5 … 1.3 alike likely
 *
 *   x̂₀ = E[x₀]    u²_random = E[Var(x₀|m)] + (1 − B) Var(E[x₀|m])    u²_shape = B Var(E[x₀|m])    B = Var(m)/Var₀(m)
 *
 * What the log itself tells of m is its own; the rest of the doubt about m, the share B, every log has alike. s² is the
 * force's noise, or what the best curve leaves where that is more by twice its own scatter.
 *
 * @param force   less its zero, from before contact until well above the noise [N]
 * @param x       displacement at the same samples [m]
 * @param noise   standard deviation of single force samples [N], and how many samples count as one where neighbours hang together
 * @param within  the contact lies between these [m], the second greater
 * @returns       mean of x₀ and its standard uncertainties
 * @source        Bayes's rule on a grid, JCGM 101:2008, 6.2; common practice for the powers
 * @checked       tests/processing/measures/forceOnset.test.ts
 */
export function forceOnset(force: readonly number[], x: readonly number[], noise: { readonly sd: number; readonly together: number }, within: readonly [number, number]): ForceOnset {
  const [low, high] = within;
  const size = Math.ceil(force.length / mostSamples);
  const [f, d] = [grouped(force, size), grouped(x, size)];
  const scale = Math.max(...d) - low;
  const place = (k: number): number => low + ((high - low) * (k + 0.5)) / places;
  const power = (j: number): number => powers.least + ((powers.most - powers.least) * (j + 0.5)) / powers.count;
  const missed = Array.from({ length: powers.count }, (_, j) => Array.from({ length: places }, (__, k) => left(f, d, place(k), power(j), scale)));
  const best = Math.min(...missed.flat());
  const stated = (noise.sd ** 2 / size) * Math.max(1, noise.together / size);
  const freedom = Math.max(1, f.length - 3);
  // a log without any noise has one place that fits, whatever the divisor
  const variance = Math.max(best / freedom > (1 + 2 * Math.sqrt(2 / freedom)) * stated ? best / freedom : stated, Number.MIN_VALUE);
  const byPower = missed.map((row, j) => {
    const weights = row.map((value) => Math.exp((best - value) / (2 * variance)));
    return { power: power(j), ...moments(weights, place) };
  });
  const over = (value: (one: (typeof byPower)[number]) => number): number => byPower.reduce((sum, one) => sum + one.weight * value(one), 0) / byPower.reduce((sum, one) => sum + one.weight, 0);
  const at = over((one) => one.mean);
  const middle = over((one) => one.power);
  const between = over((one) => (one.mean - at) ** 2);
  const untold = Math.min(1, over((one) => (one.power - middle) ** 2) / mean(byPower.map((one) => (one.power - (powers.least + powers.most) / 2) ** 2)));
  return { at, random: Math.sqrt(over((one) => one.variance) + ((high - low) / places) ** 2 / 12 + (1 - untold) * between), shape: Math.sqrt(untold * between) };
}

/** Sum of squares that the best a leaves. */
function left(force: readonly number[], x: readonly number[], x0: number, power: number, scale: number): number {
  let [ff, fy, yy] = [0, 0, 0];
  for (let i = 0; i < force.length; i++) {
    const y = force[i] as number;
    const along = (x[i] as number) - x0;
    const f = along > 0 ? (along / scale) ** power : 0;
    ff += f * f;
    fy += f * y;
    yy += y * y;
  }
  return ff > 0 && fy > 0 ? yy - (fy * fy) / ff : yy;
}

function moments(weights: readonly number[], place: (k: number) => number): { readonly weight: number; readonly mean: number; readonly variance: number } {
  const weight = weights.reduce((sum, value) => sum + value, 0);
  if (!(weight > 0)) return { weight: 0, mean: 0, variance: 0 };
  const centre = weights.reduce((sum, value, k) => sum + value * place(k), 0) / weight;
  return { weight, mean: centre, variance: weights.reduce((sum, value, k) => sum + value * (place(k) - centre) ** 2, 0) / weight };
}

/** Means of neighbours, `size` at a time. */
function grouped(values: readonly number[], size: number): number[] {
  if (size === 1) return [...values];
  return Array.from({ length: Math.floor(values.length / size) }, (_, i) => mean(values.slice(i * size, (i + 1) * size)));
}
