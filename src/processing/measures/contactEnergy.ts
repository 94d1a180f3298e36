import type { Estimate } from "../../core/estimate.ts";
import { fromDetermined } from "./fromDetermined.ts";

/**
 * Energy of the motion along the normal.
 *
 *   E = ½ m v²
 *
 * [J]
 *
 * @param mass   m [kg]
 * @param speed  v [m/s]
 * @param method which speed
 * @returns      E
 * @source       definition
 * @checked      tests/processing/measures/dropContact.test.ts
 */
export function motionEnergy(mass: Estimate<"kg">, speed: Estimate<"m/s">, method: string): Estimate<"J"> {
  return fromDetermined([speed, mass], (v, m) => 0.5 * m * v * v, "J", method);
}

/**
 * Work of the hub on the wheel from first touch to a later time of the contact: the area under force over compression.
 *
 *   W = ∫ F dd = ½ m (v₁² − v²) + m g d
 *
 * [J]. With F = m (a + g) and d integrated from the same a the area and the balance of energies are one and the same number,
 * so it is taken from the latter, where what both ends share stays coherent. At the largest compression v = 0; at lift-off it
 * is the area of the loop: the energy that wheel, ground and guide absorbed.
 *
 * @param mass        m [kg]
 * @param impact      v₁ [m/s]
 * @param speed       v at the end [m/s]; null = 0
 * @param compression d at the end [m]
 * @param gravity     g [m/s²]
 * @param method      which stretch
 * @returns           W
 * @source            theorem of work and energy
 * @checked           tests/processing/measures/dropContact.test.ts
 */
export function contactWork(mass: Estimate<"kg">, impact: Estimate<"m/s">, speed: Estimate<"m/s"> | null, compression: Estimate<"m">, gravity: number, method: string): Estimate<"J"> {
  const work = (v1: number, d: number, m: number, v: number): number => 0.5 * m * (v1 * v1 - v * v) + m * gravity * d;
  if (speed === null) return fromDetermined([impact, compression, mass], (v1, d, m) => work(v1, d, m, 0), "J", method);
  return fromDetermined([impact, compression, mass, speed], work, "J", method);
}
