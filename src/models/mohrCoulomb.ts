import { UsageError } from "../core/errors.ts";

/**
 * Shear strength of soil at a normal stress.
 *
 *   τ_max = c + σ tan φ
 *
 * A straight line over the normal stresses it was found from; at lower stress real soil bends away from it. A
 * negative c from a fit is such a bend, or a wrong zero, and is kept.
 *
 * @param normalStressPa     σ [Pa]
 * @param cohesionPa         c [Pa]
 * @param frictionAngleRad   φ [rad], between −π/2 and π/2
 * @returns                  τ_max [Pa]
 * @throws                   UsageError when the angle is not below a right angle
 * @source                   C. A. Coulomb 1776, O. Mohr 1900; common practice
 * @checked                  tests/models/mohrCoulomb.test.ts
 */
export function shearStrength(normalStressPa: number, cohesionPa: number, frictionAngleRad: number): number {
  if (!(Math.abs(frictionAngleRad) < Math.PI / 2)) throw new UsageError(`shearStrength: expected a friction angle below 90°, found ${frictionAngleRad} rad`);
  return cohesionPa + normalStressPa * Math.tan(frictionAngleRad);
}
