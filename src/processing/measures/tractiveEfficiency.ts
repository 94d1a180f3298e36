import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/**
 * Tractive efficiency: power at the drawbar over power at the axle. Needs no radius.
 *
 *   DP v / (T ω)
 *
 * @param pull     drawbar pull [N]
 * @param speed    carriage speed [m/s]
 * @param torque   wheel torque, free-spin drag removed [N·m], not zero
 * @param turning  wheel speed [rad/s], not zero
 * @returns        [1]; negative while the wheel is pushed, never above 1 in truth
 * @source         ASABE S296, from memory
 * @checked        tests/processing/measures/tractionRatios.test.ts
 */
export function tractiveEfficiency(pull: Reading<"N">, speed: Reading<"m/s">, torque: Reading<"N.m">, turning: Reading<"rad/s">): Reading<"1"> {
  return derive([pull, speed, torque, turning], (dp = Number.NaN, v = Number.NaN, t = Number.NaN, omega = Number.NaN) => (dp * v) / (t * omega), "1");
}
