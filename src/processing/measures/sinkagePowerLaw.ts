import { UsageError } from "../../core/errors.ts";
import { leastSquares } from "../../numerics/linearAlgebra.ts";
import { effectiveSampleSize, lag1Autocorrelation } from "../../numerics/statistics.ts";

/** One point of a plate test. */
export interface PlatePoint {
  readonly sinkageM: number;
  readonly pressurePa: number;
}

/** p = k zⁿ of one plate. */
export interface SinkagePowerLaw {
  /** n [1] */
  readonly exponent: number;
  /** k [N/m^(n+2)] */
  readonly stiffness: number;
  /** ln of the sinkage about which n and k turn (weighted mean of ln z) */
  readonly centreLogSinkage: number;
  /** of (n, ln k) from the scatter about the curve, neighbouring points counted once where they move together */
  readonly covariance: readonly (readonly number[])[];
  readonly effectivePoints: number;
}

/**
 * Power law through the points of one plate, by weighted least squares in logarithms.
 *
 *   minimise Σ w (ln p − ln k − n ln z)²      w = p² (undoes the logarithm: errors in p count alike) or 1
 *
 * @param points      sinkage [m] and pressure [Pa], all above zero: seating and unloading are dropped before
 * @param weighting   "pressureSquared" or "none"
 * @returns           n, k, covariance of (n, ln k)
 * @throws            UsageError with fewer than 3 points, a value not above zero, or all sinkages alike
 * @source            J. Y. Wong, J. Terramechanics 17(1), 1980, 5–21; from memory
 * @checked           tests/processing/measures/sinkagePowerLaw.test.ts
 */
export function sinkagePowerLaw(points: readonly PlatePoint[], weighting: "pressureSquared" | "none" = "pressureSquared"): SinkagePowerLaw {
  if (points.length < 3) throw new UsageError(`sinkagePowerLaw: expected at least 3 points, found ${points.length}`);
  if (points.some((point) => !(point.sinkageM > 0 && point.pressurePa > 0))) throw new UsageError("sinkagePowerLaw: expected sinkages and pressures above zero");
  const logSinkage = points.map((point) => Math.log(point.sinkageM));
  const logPressure = points.map((point) => Math.log(point.pressurePa));
  const weights = points.map((point) => (weighting === "none" ? 1 : point.pressurePa ** 2));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const centre = (values: readonly number[]): number => values.reduce((total, value, i) => total + (weights[i] as number) * value, 0) / sum;
  const centreLogSinkage = centre(logSinkage);
  const { solution, covarianceFactor, residuals, rank } = leastSquares(logSinkage.map((value) => [value - centreLogSinkage, 1]), logPressure, weights.map((weight) => weight / sum));
  if (rank < 2) throw new UsageError("sinkagePowerLaw: expected differing sinkages");
  const [exponent, atCentre] = solution as [number, number];
  const logStiffness = atCentre - exponent * centreLogSinkage;
  const stiffness = Math.exp(logStiffness);
  const freedom = points.length - 2;
  const weightedResiduals = residuals.map((residual, i) => Math.sqrt((weights[i] as number) / sum) * residual);
  const variance = weightedResiduals.reduce((total, residual) => total + residual ** 2, 0) / freedom;
  const scattered = variance > 0 && points.length > 3;
  const effectivePoints = scattered ? Math.max(2, effectiveSampleSize(points.length, lag1Autocorrelation(weightedResiduals))) : points.length;
  const scale = (variance * points.length) / effectivePoints;
  const [[nn, nq], [, qq]] = covarianceFactor as [[number, number], [number, number]];
  const m = centreLogSinkage;
  return {
    exponent,
    stiffness,
    centreLogSinkage,
    covariance: [
      [scale * nn, scale * (nq - m * nn)],
      [scale * (nq - m * nn), scale * (qq - 2 * m * nq + m ** 2 * nn)],
    ],
    effectivePoints,
  };
}

/**
 * Plate stiffness with the exponent given: the second line of the weighted procedure.
 *
 *   ln k = (Σ p² ln p − n Σ p² ln z) / Σ p²
 *
 * @param points     sinkage [m] and pressure [Pa], all above zero
 * @param exponent   n [1]
 * @returns          k [N/m^(n+2)]
 * @throws           UsageError with no points
 * @source           J. Y. Wong, J. Terramechanics 17(1), 1980, 5–21; from memory
 * @checked          tests/processing/measures/sinkagePowerLaw.test.ts
 */
export function stiffnessAtExponent(points: readonly PlatePoint[], exponent: number): number {
  if (points.length === 0) throw new UsageError("stiffnessAtExponent: expected at least one point");
  let sum = 0;
  let logs = 0;
  for (const { sinkageM, pressurePa } of points) {
    sum += pressurePa ** 2;
    logs += pressurePa ** 2 * (Math.log(pressurePa) - exponent * Math.log(sinkageM));
  }
  return Math.exp(logs / sum);
}

/**
 * Goodness of a power law: 1 is a perfect fit, and a value near 1 is no proof of the law.
 *
 *   ε = 1 − √(Σ (p − k zⁿ)² / (N − 2)) / mean p
 *
 * @param points      sinkage [m] and pressure [Pa]; at least 3
 * @param exponent    n [1]
 * @param stiffness   k [N/m^(n+2)]
 * @returns           ε [1]
 * @throws            UsageError with fewer than 3 points
 * @source            J. Y. Wong, J. Terramechanics 17(1), 1980, 5–21; from memory
 * @checked           tests/processing/measures/sinkagePowerLaw.test.ts
 */
export function powerLawGoodness(points: readonly PlatePoint[], exponent: number, stiffness: number): number {
  if (points.length < 3) throw new UsageError(`powerLawGoodness: expected at least 3 points, found ${points.length}`);
  const missed = points.reduce((total, point) => total + (point.pressurePa - stiffness * point.sinkageM ** exponent) ** 2, 0);
  const meanPressure = points.reduce((total, point) => total + point.pressurePa, 0) / points.length;
  return 1 - Math.sqrt(missed / (points.length - 2)) / meanPressure;
}
