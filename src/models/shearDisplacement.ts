import { UsageError } from "../core/errors.ts";

/**
 * Share of the shear strength mobilised at a shear displacement, soil without a peak.
 *
 *   τ/τ_max = 1 − e^(−j/K)
 *
 * @param displacementM    j [m], ≥ 0
 * @param shearModulusM    K, shear deformation modulus [m], > 0
 * @returns                τ/τ_max [1]
 * @throws                 UsageError when K is not above zero or j is below zero
 * @source                 Z. Janosi and B. Hanamoto, 1st Int. Conf. on the Mechanics of Soil–Vehicle Systems, Turin, 1961
 * @checked                tests/models/shearDisplacement.test.ts
 */
export function shearMobilised(displacementM: number, shearModulusM: number): number {
  if (!(shearModulusM > 0)) throw new UsageError(`shearMobilised: expected K above 0 m, found ${shearModulusM}`);
  if (!(displacementM >= 0)) throw new UsageError(`shearMobilised: expected a displacement of at least 0 m, found ${displacementM}`);
  return 1 - Math.exp(-displacementM / shearModulusM);
}

/** Constants of the curve with a hump. */
export interface HumpedShear {
  /** τ at j = K_w [Pa]; close to the peak, not exactly it (equal only for K_r = 0.6613) */
  readonly stressAtPeakPa: number;
  /** K_r, residual stress over stressAtPeak [1], above 0 */
  readonly residualRatio: number;
  /** K_w [m] */
  readonly displacementAtPeakM: number;
}

/**
 * Shear stress over displacement for dense soil: a hump, then a residual stress.
 *
 *   τ = τ_m K_r {1 + [1/(K_r (1 − 1/e)) − 1] e^(1 − j/K_w)} (1 − e^(−j/K_w))
 *
 * τ(K_w) = τ_m exactly, but the greatest stress lies there only for K_r = 0.6613: read the peak off the data, not off K_w.
 *
 * @param displacementM   j [m], ≥ 0
 * @param constants       τ_m, K_r, K_w
 * @returns               τ [Pa]
 * @throws                UsageError when K_w or K_r is not above zero or j is below zero
 * @source                J. Y. Wong, Theory of Ground Vehicles, chapter on shear; from memory
 * @checked               tests/models/shearDisplacement.test.ts
 */
export function humpedShearStress(displacementM: number, { stressAtPeakPa, residualRatio, displacementAtPeakM }: HumpedShear): number {
  if (!(residualRatio > 0)) throw new UsageError(`humpedShearStress: expected a residual ratio above 0, found ${residualRatio}`);
  const hump = 1 / (residualRatio * (1 - 1 / Math.E)) - 1;
  return stressAtPeakPa * residualRatio * (1 + hump * Math.exp(1 - displacementM / displacementAtPeakM)) * shearMobilised(displacementM, displacementAtPeakM);
}
