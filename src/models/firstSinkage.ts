import type { Drum, WheelSoil } from "./wheelSoil.ts";

/**
 * Where to begin looking for the sinkage that carries a load, and how the load grows near it.
 *
 *   z = (3W / ((3 − n) b k √D))^(1/(n + ½))        W ∝ z^(n + ½)
 *
 * @param wheel   R, b [m]
 * @param soil    k, n; n from 2 up counts as 2, where the closed form blows up
 * @param slip    s, for n = n₀ + n₁|s|
 * @param loadN   W [N], > 0
 * @returns       guess z [m] and the exponent n + ½
 * @source        M. G. Bekker 1956, closed form for shallow sinkage
 * @checked       tests/models/rigidWheel.test.ts
 */
export function firstSinkage(wheel: Drum, soil: WheelSoil, slip: number, loadN: number): { readonly guess: number; readonly exponent: number } {
  const n = soil.exponent + soil.exponentBySlip * Math.abs(slip);
  const exponent = n + 0.5;
  const load = (3 * loadN) / ((3 - Math.min(n, 2)) * wheel.widthM * soil.stiffness * Math.sqrt(2 * wheel.radiusM));
  return { guess: load ** (1 / exponent), exponent };
}
