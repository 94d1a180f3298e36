import { UsageError } from "../core/errors.ts";

/**
 * Volume worn off by sliding.
 *
 *   V = K F L / H      specific wear rate V/(F L) = K/H
 *
 * @param coefficient   K, wear coefficient [1], ≥ 0
 * @param loadN         F, normal load [N], ≥ 0
 * @param slidingM      L, sliding distance [m], ≥ 0
 * @param hardnessPa    H, indentation hardness of the softer body [Pa], > 0
 * @returns             V [m³]
 * @throws              UsageError when an input is out of its range
 * @source              J. F. Archard, J. Appl. Phys. 24 (1953) 981, from memory
 * @checked             tests/models/slidingWear.test.ts
 */
export function wornVolume(coefficient: number, loadN: number, slidingM: number, hardnessPa: number): number {
  if (!(coefficient >= 0 && loadN >= 0 && slidingM >= 0 && hardnessPa > 0)) throw new UsageError(`wornVolume: expected K, F and L of at least 0 and H above 0, found ${coefficient}, ${loadN} N, ${slidingM} m, ${hardnessPa} Pa`);
  return (coefficient * loadN * slidingM) / hardnessPa;
}

/**
 * Distance the rim of a driven wheel slides over the ground while the wheel travels.
 *
 *   L = x s / (1 − s)
 *
 * From s = 1 − v/(rω): the rim passes x/(1 − s), of which the travelled x does not slide.
 *
 * @param travelledM   x [m], ≥ 0
 * @param slip         driven slip s [1], 0 ≤ s < 1
 * @returns            L [m]
 * @throws             UsageError when slip is outside 0 … 1 or the distance is below zero
 * @source             kinematics of a slipping wheel; common practice
 * @checked            tests/models/slidingWear.test.ts
 */
export function slidingDistance(travelledM: number, slip: number): number {
  if (!(slip >= 0 && slip < 1 && travelledM >= 0)) throw new UsageError(`slidingDistance: expected a driven slip from 0 to below 1 and a distance of at least 0 m, found ${slip} and ${travelledM} m`);
  return (travelledM * slip) / (1 - slip);
}
