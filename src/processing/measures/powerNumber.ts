import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/**
 * Power number: power at the axle per load and carriage speed.
 *
 *   T ω / (W v)
 *
 * @param torque   wheel torque, free-spin drag removed [N·m]
 * @param turning  wheel speed [rad/s]
 * @param load     vertical load [N]
 * @param speed    carriage speed [m/s], not zero
 * @returns        [1]
 * @source         common practice; equals pull coefficient / tractive efficiency
 * @checked        tests/processing/measures/tractionRatios.test.ts
 */
export function powerNumber(torque: Reading<"N.m">, turning: Reading<"rad/s">, load: Reading<"N">, speed: Reading<"m/s">): Reading<"1"> {
  return derive([torque, turning, load, speed], (t = Number.NaN, omega = Number.NaN, w = Number.NaN, v = Number.NaN) => (t * omega) / (w * v), "1");
}
