import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/**
 * Side force as a share of the load.
 *
 *   F_y / W
 *
 * A straight-running wheel has none in the mean: what stays is toe or camber of the hub, or cross-talk of the sensor.
 *
 * @param side   side force, positive to the left along the travel [N]
 * @param load   vertical load [N], not zero
 * @returns      [1]
 * @source       common practice
 * @checked      tests/processing/measures/sideForceRatio.test.ts
 */
export function sideForceRatio(side: Reading<"N">, load: Reading<"N">): Reading<"1"> {
  return derive([side, load], (fy = Number.NaN, w = Number.NaN) => fy / w, "1");
}

/**
 * What one degree between the sensor's axis and the travel would move from the side force into the pull.
 *
 *   F_y · sin 1°        to first order; the pull itself changes by 1 − cos 1° = 0.015 % only
 *
 * @param side   side force [N]
 * @returns      [N] per degree
 * @source       turning of a vector
 * @checked      tests/processing/measures/sideForceRatio.test.ts
 */
export function pullPerDegreeOfYaw(side: Reading<"N">): Reading<"N"> {
  return derive([side], (fy = Number.NaN) => fy * Math.sin(Math.PI / 180), "N");
}
