import { studentTQuantile } from "./distributions.ts";
import type { Line } from "./lineFit.ts";

/** A fitted straight line read at one place. */
export interface LineReading {
  readonly value: number;
  /** standard uncertainty of the line there */
  readonly standardError: number;
  /** the line itself lies within ± this */
  readonly confidenceHalf: number;
  /** one more observation lies within ± this */
  readonly predictionHalf: number;
}

/**
 * A straight line at x₀, with the interval of the line and that of one more observation.
 *
 *   value = a + b x₀        u² = (1, x₀) C (1, x₀)ᵀ        t u   and   t √(u² + s²)
 *
 * Unit of y. s: standard deviation of one observation, t: Student's quantile at the line's degrees of freedom. Beyond the
 * observations both hold only as far as the line does, which they cannot know.
 *
 * @param line         from `lineFit`
 * @param x            x₀
 * @param observation  s ≥ 0; for an unweighted line its `residualSd`
 * @param confidence   0 < confidence < 1
 * @returns            value, its standard error and both half-widths; NaN half-widths without degrees of freedom
 * @throws             RangeError if the confidence is not between 0 and 1
 * @source             Draper & Smith, Applied Regression Analysis, chapter 1 (from memory)
 * @checked            tests/numerics/lineAt.test.ts
 */
export function lineAt({ intercept, slope, covariance: [[v0, mixed], [, v1]], degreesOfFreedom }: Line, x: number, observation: number, confidence = 0.95): LineReading {
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`lineAt: expected a confidence between 0 and 1, found ${confidence}`);
  const variance = v0 + 2 * mixed * x + v1 * x * x;
  const t = degreesOfFreedom > 0 ? studentTQuantile(0.5 + confidence / 2, degreesOfFreedom) : Number.NaN;
  // Far from zero the sum may fall below zero by rounding.
  const standardError = Math.sqrt(variance < 0 ? 0 : variance);
  return { value: intercept + slope * x, standardError, confidenceHalf: t * standardError, predictionHalf: t * Math.hypot(standardError, observation) };
}
