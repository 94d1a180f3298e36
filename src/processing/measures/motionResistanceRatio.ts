import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/**
 * Motion resistance ratio: the thrust that does not arrive at the drawbar, over the load.
 *
 *   (T / r − DP) / W
 *
 * @param torque  wheel torque, free-spin drag removed [N·m]
 * @param radius  reference radius [m]
 * @param pull    drawbar pull [N]
 * @param load    vertical load [N]
 * @returns       [1]
 * @source        ASABE S296, from memory
 * @checked       tests/processing/measures/tractionRatios.test.ts
 */
export function motionResistanceRatio(torque: Reading<"N.m">, radius: Reading<"m">, pull: Reading<"N">, load: Reading<"N">): Reading<"1"> {
  return derive([torque, radius, pull, load], (t = Number.NaN, r = Number.NaN, dp = Number.NaN, w = Number.NaN) => (t / r - dp) / w, "1");
}
