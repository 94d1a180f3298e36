import { undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { fromDetermined } from "./fromDetermined.ts";

/**
 * Coefficient of restitution from speeds.
 *
 *   e = v₂ / v₁
 *
 * [1]. One number for all three ways only for a blow along the normal without rotation; they are compared, not mixed.
 *
 * @param rebound v₂ at lift-off, upwards [m/s]
 * @param impact  v₁ at touch, downwards [m/s]
 * @param method  where the speeds come from
 * @returns       e; causes shared by both speeds (calibration: cancels) act together
 * @source        Newton's definition; e.g. R. Cross, Am. J. Phys. 67 (1999) 222
 * @checked       tests/processing/measures/restitution.test.ts
 */
export function restitutionFromVelocities(rebound: Estimate<"m/s">, impact: Estimate<"m/s">, method: string): Estimate<"1"> {
  return fromDetermined([rebound, impact], (v2, v1) => v2 / v1, "1", method);
}

/**
 * Coefficient of restitution from two successive flight times.
 *
 *   e = t₂ / t₁
 *
 * [1]. Holds for equal acceleration in both flights, i.e. without guide friction; e is that of the touch between them.
 *
 * @param later   t₂ [s]
 * @param earlier t₁ [s]
 * @returns       e
 * @source        geometric series of bounces; A. D. Bernstein, Am. J. Phys. 45 (1977) 41 (from memory)
 * @checked       tests/processing/measures/restitution.test.ts
 */
export function restitutionFromFlightTimes(later: Estimate<"s">, earlier: Estimate<"s">): Estimate<"1"> {
  return fromDetermined([later, earlier], (t2, t1) => t2 / t1, "1", "ratio of two successive flight times");
}

/**
 * Coefficient of restitution from heights.
 *
 *   e = √( (a₂ h₂) / (a₁ h₁) )          with a₂ = a₁ = g:  e = √(h₂ / h₁)
 *
 * a₁ and a₂ are the decelerations measured in fall and rise: guide friction, which makes the fall slow and the rise short,
 * is then not counted as loss in the wheel. h₂ counts from lift-off where that is known, because e compares speeds there;
 * rebound tests that count it from first touch give a little less. [1]
 *
 * @param reboundHeight h₂ of the apex above lift-off, or above first touch [m]
 * @param dropHeight    h₁ before release above first touch [m]
 * @param rise          a₂ [m/s²], null for a₂ = a₁
 * @param fall          a₁ [m/s²], null for a₂ = a₁
 * @returns             e; undetermined when a height is not positive
 * @source              energy balance; R. Cross, Am. J. Phys. 67 (1999) 222
 * @checked             tests/processing/measures/restitution.test.ts
 */
export function restitutionFromHeights(reboundHeight: Estimate<"m">, dropHeight: Estimate<"m">, rise: Estimate<"m/s2"> | null = null, fall: Estimate<"m/s2"> | null = null): Estimate<"1"> {
  if (reboundHeight.value <= 0 || dropHeight.value <= 0) return undetermined("1", `a height is not positive: drop ${dropHeight.value.toPrecision(3)} m, rebound ${reboundHeight.value.toPrecision(3)} m`);
  if (rise === null || fall === null) return fromDetermined([reboundHeight, dropHeight], (h2, h1) => Math.sqrt(h2 / h1), "1", "root of rebound height over drop height");
  return fromDetermined([reboundHeight, dropHeight, rise, fall], (h2, h1, a2, a1) => Math.sqrt((a2 * h2) / (a1 * h1)), "1", "root of rebound height over drop height, rebound counted from lift-off, each times the acceleration measured in fall and rise, so that guide friction is not counted as loss");
}
