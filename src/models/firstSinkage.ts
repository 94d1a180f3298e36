import type { Drum, WheelSoil } from "./wheelSoil.ts";

/**
 * Where to begin looking for the sinkage that carries a load, and how the load grows near it.
 *
 *   z = (3W / ((3 − n) b k √D))^(1/(n + ½))        W ∝ z^(n + ½)
 *
 * @param wheel   R, b [m]
 * @param soil    k, n; n from 2 up counts as 2, where the closed form blows up
 * @param loadN   W [N], > 0
 * @returns       guess z [m] and the exponent n + ½
 * @source        M. G. Bekker 1956, closed form for shallow sinkage
 * @checked       tests/models/rigidWheel.test.ts
 */
export function firstSinkage(wheel: Drum, soil: WheelSoil, loadN: number): { readonly guess: number; readonly exponent: number } {
  const exponent = soil.exponent + 0.5;
  const load = (3 * loadN) / ((3 - Math.min(soil.exponent, 2)) * wheel.widthM * soil.stiffness * Math.sqrt(2 * wheel.radiusM));
  return { guess: load ** (1 / exponent), exponent };
}
