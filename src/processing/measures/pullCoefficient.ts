import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/**
 * Drawbar pull coefficient, or net traction ratio.
 *
 *   DP / W
 *
 * @param pull   drawbar pull [N], positive when the wheel pulls the carriage
 * @param load   vertical load at the contact [N], not zero
 * @returns      [1]
 * @source       ASABE S296 (net traction ratio), from memory
 * @checked      tests/processing/measures/tractionRatios.test.ts
 */
export function pullCoefficient(pull: Reading<"N">, load: Reading<"N">): Reading<"1"> {
  return derive([pull, load], (dp = Number.NaN, w = Number.NaN) => dp / w, "1");
}
