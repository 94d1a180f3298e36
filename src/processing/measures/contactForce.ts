import type { Estimate } from "../../core/estimate.ts";
import { fromDetermined } from "./fromDetermined.ts";

/**
 * Force of the ground on the wheel at an acceleration of the hub.
 *
 *   F = m (a + g)
 *
 * [N], upwards. a: coordinate acceleration of the hub, 0 at rest. Holds while what falls moves as one rigid mass with the hub
 * and the guide's friction is small; a load plate under the wheel needs neither.
 *
 * @param mass         m [kg]
 * @param acceleration a [m/s²]
 * @param gravity      g [m/s²]
 * @returns            F
 * @source             Newton's second law
 * @checked            tests/processing/measures/dropContact.test.ts
 */
export function contactForce(mass: Estimate<"kg">, acceleration: Estimate<"m/s2">, gravity: number): Estimate<"N"> {
  return fromDetermined([acceleration, mass], (a, m) => m * (a + gravity), "N", `falling mass times acceleration and gravity; acceleration: ${acceleration.method}`);
}
