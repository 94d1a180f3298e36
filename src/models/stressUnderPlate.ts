import { UsageError } from "../core/errors.ts";

/**
 * Vertical stress in the soil under the middle of an evenly loaded circle.
 *
 *   σ = p (1 − cos^ν θ),  tan θ = r/z
 *
 * ν 3 is elastic ground; soil that gives way beside the load has more below it: about 4 firm, 5 common, 6 soft and wet.
 * Tells how deep a plate or a wheel presses, and so whether the bin's floor carries with the soil.
 *
 * @param pressurePa      p, even contact pressure [Pa], ≥ 0
 * @param radiusM         r of the loaded circle [m], > 0
 * @param depthM          z below it [m], ≥ 0
 * @param concentration   ν [1], > 0
 * @returns               σ [Pa]; p at the surface
 * @throws                UsageError when an input is out of its range
 * @source                J. Boussinesq 1885 with the concentration factor of O. K. Fröhlich 1934; in this form in J. Y. Wong, Theory of Ground Vehicles, ch. 2, from memory
 * @checked               tests/models/stressUnderPlate.test.ts
 */
export function stressUnderPlate(pressurePa: number, radiusM: number, depthM: number, concentration: number): number {
  if (!(pressurePa >= 0 && radiusM > 0 && depthM >= 0 && concentration > 0)) throw new UsageError(`stressUnderPlate: expected pressure and depth of at least 0, radius and concentration above 0, found ${pressurePa} Pa, ${depthM} m, ${radiusM} m, ${concentration}`);
  return pressurePa * (1 - (depthM / Math.hypot(depthM, radiusM)) ** concentration);
}
