import { UsageError } from "../core/errors.ts";
import type { BekkerSoil } from "./pressureSinkage.ts";

/**
 * Gravity at the Moon's mean radius [m/s²].
 *
 *   GM/R², GM = 4902.80007 km³/s², R = 1738.0 km gives 1.6231; 1.62 is the number in use
 *
 * @source    body constants as published by the JPL ephemeris service, public copy
 * @checked   tests/models/lunarSoil.test.ts
 */
export const lunarGravity = 1.62;

/**
 * Constants recommended for trafficability on lunar soil; a first guess and a yardstick, not a measurement of any simulant.
 *
 *   n = 1.0, k_c = 1.4 kN/m², k_φ = 820 kN/m³; under a wheel c = 0.17 kPa, φ = 35° (± 4°), K = 18 mm (± 8 mm)
 *
 * @source    J. K. Mitchell et al., NASA CR-134306, 1974; W. D. Carrier et al., Lunar Sourcebook ch. 9, 1991; constants in third-party copies
 * @checked   tests/models/lunarSoil.test.ts
 */
export const lunarTrafficability: { readonly soil: BekkerSoil; readonly cohesionPa: number; readonly frictionAngleRad: number; readonly shearModulusM: number } = {
  soil: { exponent: 1, cohesive: 1400, frictional: 820e3 },
  cohesionPa: 170,
  frictionAngleRad: (35 * Math.PI) / 180,
  shearModulusM: 0.0178,
};

/**
 * Bulk density of lunar soil between the craters at a depth.
 *
 *   ρ = 1920 (z + 0.122)/(z + 0.18)        z in m; published with z in cm
 *
 * @param depthM   z [m], ≥ 0
 * @returns        ρ [kg/m³]
 * @throws         UsageError when the depth is below zero
 * @source         W. D. Carrier et al., Lunar Sourcebook ch. 9, 1991, third-party copy
 * @checked        tests/models/lunarSoil.test.ts
 */
export function lunarDensity(depthM: number): number {
  if (!(depthM >= 0)) throw new UsageError(`lunarDensity: expected a depth of at least 0 m, found ${depthM}`);
  return (1920 * (depthM + 0.122)) / (depthM + 0.18);
}

/**
 * Mean bulk density of lunar soil between the surface and a depth.
 *
 *   1920 [1 − (0.058/d) ln((d + 0.18)/0.18)]
 *
 * @param depthM   d [m], > 0
 * @returns        mean ρ [kg/m³]
 * @throws         UsageError when the depth is not above zero
 * @source         integral of `lunarDensity`
 * @checked        tests/models/lunarSoil.test.ts
 */
export function lunarMeanDensity(depthM: number): number {
  if (!(depthM > 0)) throw new UsageError(`lunarMeanDensity: expected a depth above 0 m, found ${depthM}`);
  return 1920 * (1 - (0.058 / depthM) * Math.log((depthM + 0.18) / 0.18));
}
