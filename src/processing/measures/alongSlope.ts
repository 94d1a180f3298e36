import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/**
 * Pull and load along and square to a sloping bed, from those along and square to level rails.
 *
 *   DP' = DP cos β + W sin β        W' = W cos β − DP sin β
 *
 * A wheel that climbs (β > 0) carries a part of its load uphill: its pull on level ground would be greater by that.
 *
 * @param pull   DP, along the rails [N]
 * @param load   W, square to the rails [N]
 * @param slope  β of the bed against the rails, uphill in the direction of travel positive [rad]
 * @returns      both along and square to the bed [N]
 * @source       turning of a force's components
 * @checked      tests/processing/measures/alongSlope.test.ts
 */
export function alongSlope(pull: Reading<"N">, load: Reading<"N">, slope: Reading<"rad">): { readonly pull: Reading<"N">; readonly load: Reading<"N"> } {
  return {
    pull: derive([pull, load, slope], (dp = Number.NaN, w = Number.NaN, b = Number.NaN) => dp * Math.cos(b) + w * Math.sin(b), "N"),
    load: derive([pull, load, slope], (dp = Number.NaN, w = Number.NaN, b = Number.NaN) => w * Math.cos(b) - dp * Math.sin(b), "N"),
  };
}
