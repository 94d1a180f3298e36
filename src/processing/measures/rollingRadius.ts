import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/**
 * Effective rolling radius from a run on a hard floor: distance per radian, revolution by revolution.
 *
 *   r_e = v / ω = x / θ
 *
 * @param speed    carriage speed [m/s]
 * @param turning  wheel speed [rad/s], not zero
 * @returns        [m]
 * @source         common practice: towed or free-rolling on a hard floor at the test load, at least five revolutions
 * @checked        tests/processing/measures/slip.test.ts
 */
export function rollingRadius(speed: Reading<"m/s">, turning: Reading<"rad/s">): Reading<"m"> {
  return derive([speed, turning], (v = Number.NaN, omega = Number.NaN) => v / omega, "m");
}
