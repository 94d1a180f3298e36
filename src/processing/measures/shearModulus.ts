import { UsageError } from "../../core/errors.ts";
import { curveFit } from "../../numerics/curveFit.ts";
import { effectiveSampleSize, lag1Autocorrelation } from "../../numerics/statistics.ts";
import type { ShearPoint } from "./shearStrengthOf.ts";

/**
 * Shear deformation modulus by the weighted logarithmic formula, with the strength given.
 *
 *   K = − Σ (1 − t)² j² / Σ (1 − t)² j ln(1 − t)      t = τ/τ_max, only 0 < t < 1
 *
 * Holds for soil without a peak. Points near τ_max hardly count, which is the purpose of the weights.
 *
 * @param points       displacement j [m] and stress τ [Pa]
 * @param strengthPa   τ_max [Pa], > 0
 * @returns            K [m]; NaN when no point has 0 < t < 1 and j > 0
 * @throws             UsageError when the strength is not above zero
 * @source             J. Y. Wong and J. Preston-Thomas, J. Terramechanics 19(4), 1983, 225–234; formula from memory
 * @checked            tests/processing/measures/shearModulus.test.ts
 */
export function weightedShearModulus(points: readonly ShearPoint[], strengthPa: number): number {
  if (!(strengthPa > 0)) throw new UsageError(`weightedShearModulus: expected a strength above 0 Pa, found ${strengthPa}`);
  let above = 0;
  let below = 0;
  for (const { displacementM, stressPa } of points) {
    const t = stressPa / strengthPa;
    if (!(t > 0 && t < 1 && displacementM > 0)) continue;
    const weight = (1 - t) ** 2;
    above += weight * displacementM ** 2;
    below += weight * displacementM * Math.log(1 - t);
  }
  return -above / below;
}

/** τ_max and K of one shear curve. */
export interface ShearCurve {
  readonly strengthPa: number;
  readonly shearModulusM: number;
  /** of (τ_max, K) from the scatter about the curve, neighbouring points counted once where they move together; the first row and column are zero when τ_max was given */
  readonly covariance: readonly (readonly number[])[];
  readonly residuals: readonly number[];
  readonly effectivePoints: number;
}

/**
 * Exponential shear curve by least squares in the stress.
 *
 *   τ = τ_max (1 − e^(−j/K))      both constants, or K alone when the strength is given
 *
 * @param points       displacement j [m] and stress τ [Pa]; at least 4
 * @param strengthPa   τ_max [Pa] when it is given by the data's peak; null = fitted
 * @returns            τ_max, K and their covariance; null when the fit does not settle with K inside 0.001 … 20 times the travel, or a constant is smaller than its uncertainty
 * @source             Z. Janosi and B. Hanamoto 1961
 * @checked            tests/processing/measures/shearModulus.test.ts
 */
export function fittedShearCurve(points: readonly ShearPoint[], strengthPa: number | null): ShearCurve | null {
  if (points.length < 4) return null;
  const travel = points.reduce((most, point) => Math.max(most, point.displacementM), 0);
  const greatest = points.reduce((most, point) => Math.max(most, point.stressPa), 0);
  if (!(travel > 0 && greatest > 0)) return null;
  // scaled to about one, so that both constants weigh alike in the solver
  const x = points.map((point) => point.displacementM / travel);
  const y = points.map((point) => point.stressPa / greatest);
  const given = strengthPa === null ? null : strengthPa / greatest;
  const result = curveFit({
    model: (j, p) => (given ?? (p[1] as number)) * (1 - Math.exp(-j / (p[0] as number))),
    x, y,
    start: given === null ? [0.2, 1] : [0.2],
    lower: given === null ? [1e-3, 0] : [1e-3],
    upper: given === null ? [20, 100] : [20],
  });
  if (!result.converged || result.atLimit.some((limit) => limit)) return null;
  const scatters = result.residualSd > 1e-12;
  const effectivePoints = scatters ? Math.max(2, effectiveSampleSize(points.length, lag1Autocorrelation(result.residuals))) : points.length;
  const inflate = points.length / effectivePoints;
  const at = (i: number, j: number): number => ((result.covariance[i] as readonly number[])[j] as number) * inflate;
  const kk = at(0, 0) * travel ** 2;
  // a constant smaller than its own uncertainty: the points bend too little to have a strength
  if (!result.parameters.every((value, i) => Math.sqrt(at(i, i)) < value)) return null;
  const covariance = given === null ? [[at(1, 1) * greatest ** 2, at(1, 0) * greatest * travel], [at(0, 1) * greatest * travel, kk]] : [[0, 0], [0, kk]];
  return {
    strengthPa: (given ?? (result.parameters[1] as number)) * greatest,
    shearModulusM: (result.parameters[0] as number) * travel,
    covariance,
    residuals: result.residuals.map((residual) => residual * greatest),
    effectivePoints,
  };
}
