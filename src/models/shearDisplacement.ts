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

/**
 * Shear stress over displacement for soil whose strength goes back to nothing: peat under its mat, loose fibre.
 *
 *   τ = τ_m (j/K_w) e^(1 − j/K_w)        greatest at j = K_w
 *
 * @param displacementM         j [m], ≥ 0
 * @param stressAtPeakPa        τ_m [Pa]
 * @param displacementAtPeakM   K_w [m], > 0
 * @returns                     τ [Pa]
 * @throws                      UsageError when K_w is not above zero or j is below zero
 * @source                      J. Y. Wong, Theory of Ground Vehicles, chapter on shear; from memory
 * @checked                     tests/models/shearDisplacement.test.ts
 */
export function peakedShearStress(displacementM: number, stressAtPeakPa: number, displacementAtPeakM: number): number {
  if (!(displacementAtPeakM > 0)) throw new UsageError(`peakedShearStress: expected K_w above 0 m, found ${displacementAtPeakM}`);
  if (!(displacementM >= 0)) throw new UsageError(`peakedShearStress: expected a displacement of at least 0 m, found ${displacementM}`);
  const share = displacementM / displacementAtPeakM;
  return stressAtPeakPa * share * Math.exp(1 - share);
}

/**
 * Mean share of the strength mobilised along a contact under even pressure that slips at one rate.
 *
 *   m = 1 − K/(sL) [1 − e^(−sL/K)]
 *
 * @param slip             s [1], ≥ 0
 * @param lengthM          L, length of the contact [m], > 0
 * @param shearModulusM    K [m], > 0
 * @returns                m [1]; 0 at no slip
 * @throws                 UsageError when an input is out of its range
 * @source                 thrust of a track in J. Y. Wong, Theory of Ground Vehicles; common practice
 * @checked                tests/models/shearDisplacement.test.ts
 */
export function meanShearMobilised(slip: number, lengthM: number, shearModulusM: number): number {
  if (!(slip >= 0 && lengthM > 0 && shearModulusM > 0)) throw new UsageError(`meanShearMobilised: expected a slip of at least 0, length and K above 0 m, found ${slip}, ${lengthM}, ${shearModulusM}`);
  const reach = (slip * lengthM) / shearModulusM;
  return reach === 0 ? 0 : 1 + Math.expm1(-reach) / reach;
}
