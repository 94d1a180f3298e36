import { UsageError } from "../core/errors.ts";

/** Bearing capacity factors of general shear failure. */
export interface BearingFactors {
  readonly surcharge: number;
  readonly cohesion: number;
}

/**
 * Bearing capacity factors for surcharge and cohesion under a rough strip.
 *
 *   N_q = e^((3π/2 − φ) tan φ) / (2 cos²(π/4 + φ/2))      N_c = (N_q − 1)/tan φ
 *
 * @param frictionAngleRad   φ [rad], between 0 and π/2, both excluded
 * @returns                  N_q and N_c [1]
 * @throws                   UsageError when φ is out of its range
 * @source                   K. Terzaghi, Theoretical Soil Mechanics, 1943; form from memory
 * @checked                  tests/models/earthPressure.test.ts
 */
export function bearingFactors(frictionAngleRad: number): BearingFactors {
  requireAngle("bearingFactors", frictionAngleRad);
  const tan = Math.tan(frictionAngleRad);
  const surcharge = Math.exp((1.5 * Math.PI - frictionAngleRad) * tan) / (2 * Math.cos(Math.PI / 4 + frictionAngleRad / 2) ** 2);
  return { surcharge, cohesion: (surcharge - 1) / tan };
}

/** Soil that is pushed aside. */
export interface PushedSoil {
  readonly cohesionPa: number;
  readonly frictionAngleRad: number;
  /** γ, weight of a unit volume: density times gravity [N/m³] */
  readonly unitWeight: number;
}

/**
 * Passive force on a vertical blade or lug that is pushed horizontally through soil.
 *
 *   F = b (½ γ h² N_φ + 2 c h √N_φ),  N_φ = tan²(π/4 + φ/2)
 *
 * Smooth blade, level surface, no surcharge; the side wedges of a narrow blade are left out.
 *
 * @param soil       c, φ, γ
 * @param widthM     b [m], ≥ 0
 * @param depthM     h [m], ≥ 0
 * @returns          F [N]
 * @throws           UsageError when φ, b or h is out of its range
 * @source           W. J. M. Rankine 1857; in this form in J. Y. Wong, Theory of Ground Vehicles, from memory
 * @checked          tests/models/earthPressure.test.ts
 */
export function passiveForce(soil: PushedSoil, widthM: number, depthM: number): number {
  if (!(soil.frictionAngleRad >= 0 && soil.frictionAngleRad < Math.PI / 2)) throw new UsageError(`passiveForce: expected a friction angle from 0 to below 90°, found ${soil.frictionAngleRad} rad`);
  if (!(widthM >= 0 && depthM >= 0)) throw new UsageError(`passiveForce: expected width and depth of at least 0 m, found ${widthM} and ${depthM}`);
  const root = Math.tan(Math.PI / 4 + soil.frictionAngleRad / 2);
  return widthM * (0.5 * soil.unitWeight * depthM ** 2 * root ** 2 + 2 * soil.cohesionPa * depthM * root);
}

/**
 * Resistance of the soil that a wheel pushes up ahead of it.
 *
 *   R_b = b sin(α + φ)/(2 sin α cos φ) · (2 z c K_c + γ z² K_γ) + l³ γ/3 · (π/2 − φ) + c l² [1 + tan(π/4 + φ/2)]
 *   α = acos(1 − 2z/D),  l = z tan²(π/4 − φ/2),  K_c = (N_c − tan φ) cos² φ,  K_γ = (2 N_γ/tan φ + 1) cos² φ
 *
 * @param soil                 c, φ, γ
 * @param widthM               b [m]
 * @param diameterM            D [m]
 * @param sinkageM             z [m], above 0 and below D
 * @param weightFactor         N_γ [1], from a table: it has no closed form
 * @returns                    R_b [N]
 * @throws                     UsageError when φ or z is out of its range
 * @source                     M. G. Bekker, Introduction to Terrain-Vehicle Systems, 1969; form from a lecture's copy
 * @checked                    tests/models/earthPressure.test.ts
 */
export function bulldozingResistance(soil: PushedSoil, widthM: number, diameterM: number, sinkageM: number, weightFactor: number): number {
  requireAngle("bulldozingResistance", soil.frictionAngleRad);
  if (!(sinkageM > 0 && sinkageM < diameterM)) throw new UsageError(`bulldozingResistance: expected a sinkage above 0 and below the diameter, found ${sinkageM} m`);
  const { cohesionPa: c, frictionAngleRad: phi, unitWeight: gamma } = soil;
  const cos2 = Math.cos(phi) ** 2;
  const byCohesion = (bearingFactors(phi).cohesion - Math.tan(phi)) * cos2;
  const byWeight = ((2 * weightFactor) / Math.tan(phi) + 1) * cos2;
  const approach = Math.acos(1 - (2 * sinkageM) / diameterM);
  const length = sinkageM * Math.tan(Math.PI / 4 - phi / 2) ** 2;
  return (
    ((widthM * Math.sin(approach + phi)) / (2 * Math.sin(approach) * Math.cos(phi))) * (2 * sinkageM * c * byCohesion + gamma * sinkageM ** 2 * byWeight) +
    ((length ** 3 * gamma) / 3) * (Math.PI / 2 - phi) +
    c * length ** 2 * (1 + Math.tan(Math.PI / 4 + phi / 2))
  );
}

function requireAngle(name: string, angle: number): void {
  if (!(angle > 0 && angle < Math.PI / 2)) throw new UsageError(`${name}: expected a friction angle between 0 and 90°, found ${angle} rad`);
}
