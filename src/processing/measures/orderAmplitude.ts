import { leastSquares } from "../../numerics/linearAlgebra.ts";
import { mean } from "../../numerics/statistics.ts";

/** Samples of one revolution, each at the wheel's own angle. */
export interface TurnSamples {
  readonly angles: ArrayLike<number>;
  readonly values: ArrayLike<number>;
}

/**
 * Amplitude of a ripple that comes so many times a revolution, revolution by revolution.
 *
 *   y(θ) = m + Σ_k (a_k cos kθ + b_k sin kθ), least squares in each revolution;   direction φ_k of the mean of (a_k, b_k)
 *   amplitude in a revolution = a_k cos φ_k + b_k sin φ_k;   their mean is the length of the mean vector
 *
 * In the unit of the samples. Only what keeps its place on the wheel counts: noise and mains lines turn round and average out.
 * Where there is no ripple the amplitude comes out near its own uncertainty, not at zero. All orders are fitted together, so
 * that samples at uneven angles do not mix them.
 *
 * @param turns   samples of each revolution; missing values are left out
 * @param orders  times a revolution, whole and above zero
 * @returns       per order the amplitude in each revolution; null where a revolution has too few samples to tell the orders apart
 * @source        order analysis with a common phase reference (synchronous averaging), common practice
 * @checked       tests/processing/measures/orderAmplitude.test.ts
 */
export function orderAmplitude(turns: readonly TurnSamples[], orders: readonly number[]): number[][] | null {
  const columns = 2 * orders.length + 1;
  const fits = turns.map(({ angles, values }) => {
    const rows: number[][] = [];
    const y: number[] = [];
    for (let i = 0; i < values.length; i++) {
      const [angle, value] = [angles[i] as number, values[i] as number];
      if (!Number.isFinite(angle) || !Number.isFinite(value)) continue;
      rows.push([1, ...orders.flatMap((order) => [Math.cos(order * angle), Math.sin(order * angle)])]);
      y.push(value);
    }
    return rows.length < 2 * columns ? null : leastSquares(rows, y).solution;
  });
  if (fits.length === 0 || fits.some((fit) => fit === null || fit.some(Number.isNaN))) return null;
  const solved = fits as number[][];
  return orders.map((_, k) => {
    const cos = solved.map((fit) => fit[1 + 2 * k] as number);
    const sin = solved.map((fit) => fit[2 + 2 * k] as number);
    const direction = Math.atan2(mean(sin), mean(cos));
    return cos.map((a, i) => a * Math.cos(direction) + (sin[i] as number) * Math.sin(direction));
  });
}
