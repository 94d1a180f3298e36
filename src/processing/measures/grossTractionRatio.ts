import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/**
 * Gross traction ratio: the thrust that the torque would give at the reference radius, over the load.
 *
 *   T / (r W)
 *
 * @param torque  wheel torque about the axle, free-spin drag removed [N·m]
 * @param radius  reference radius [m]
 * @param load    vertical load [N]
 * @returns       [1]
 * @source        ASABE S296, from memory
 * @checked       tests/processing/measures/tractionRatios.test.ts
 */
export function grossTractionRatio(torque: Reading<"N.m">, radius: Reading<"m">, load: Reading<"N">): Reading<"1"> {
  return derive([torque, radius, load], (t = Number.NaN, r = Number.NaN, w = Number.NaN) => t / (r * w), "1");
}
