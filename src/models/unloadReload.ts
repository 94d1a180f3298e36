import { UsageError } from "../core/errors.ts";

/** How soil answers when the pressure is taken off and put back. */
export interface ReloadSoil {
  /** k₀ [Pa/m], stiffness of the line at no sinkage, ≥ 0 */
  readonly stiffnessAtSurface: number;
  /** A_u [Pa/m²], growth of the stiffness with the sinkage unloading began at, ≥ 0 */
  readonly stiffnessByDepth: number;
}

/**
 * Pressure on the straight line of unloading and reloading.
 *
 *   p = p_u − k_u (z_u − z),  k_u = k₀ + A_u z_u        never below zero
 *
 * Beyond z_u the soil is virgin again and its pressure law holds.
 *
 * @param sinkageM     z [m], up to z_u
 * @param turnedM      z_u, sinkage at which unloading began [m], > 0
 * @param turnedPa     p_u, pressure there [Pa], ≥ 0
 * @param soil         k₀, A_u
 * @returns            p [Pa]
 * @throws             UsageError when z lies beyond z_u or z_u is not above zero
 * @source             J. Y. Wong, M. Garber and J. Preston-Thomas, Proc. Inst. Mech. Eng. 198, 1984, from memory
 * @checked            tests/models/unloadReload.test.ts
 */
export function reloadPressure(sinkageM: number, turnedM: number, turnedPa: number, soil: ReloadSoil): number {
  if (!(turnedM > 0)) throw new UsageError(`reloadPressure: expected unloading to begin above 0 m, found ${turnedM}`);
  if (!(sinkageM <= turnedM)) throw new UsageError(`reloadPressure: expected a sinkage up to the ${turnedM} m at which unloading began, found ${sinkageM}`);
  return Math.max(0, turnedPa - reloadStiffness(turnedM, soil) * (turnedM - sinkageM));
}

/**
 * Sinkage that is left when the pressure is gone.
 *
 *   z = z_u − p_u/k_u
 *
 * @param turnedM    z_u [m]
 * @param turnedPa   p_u [Pa]
 * @param soil       k₀, A_u
 * @returns          z [m]
 * @throws           UsageError when the line has no stiffness
 * @source           as `reloadPressure`
 * @checked          tests/models/unloadReload.test.ts
 */
export function sinkageLeft(turnedM: number, turnedPa: number, soil: ReloadSoil): number {
  const stiffness = reloadStiffness(turnedM, soil);
  if (!(stiffness > 0)) throw new UsageError("sinkageLeft: the line of unloading has no stiffness");
  return turnedM - turnedPa / stiffness;
}

function reloadStiffness(turnedM: number, soil: ReloadSoil): number {
  return soil.stiffnessAtSurface + soil.stiffnessByDepth * turnedM;
}
