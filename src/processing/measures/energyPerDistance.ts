import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/**
 * Energy at the axle per distance travelled.
 *
 *   T ω / v
 *
 * @param torque   wheel torque, free-spin drag removed [N·m]
 * @param turning  wheel speed [rad/s]
 * @param speed    carriage speed [m/s], not zero
 * @returns        [J/m]; 3.6 J/m = 1 Wh/km
 * @source         common practice
 * @checked        tests/processing/measures/tractionRatios.test.ts
 */
export function energyPerDistance(torque: Reading<"N.m">, turning: Reading<"rad/s">, speed: Reading<"m/s">): Reading<"J/m"> {
  return derive([torque, turning, speed], (t = Number.NaN, omega = Number.NaN, v = Number.NaN) => (t * omega) / v, "J/m");
}
