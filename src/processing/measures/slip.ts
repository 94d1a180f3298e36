import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/**
 * Driven slip: how far the wheel travels less than it rolls.
 *
 *   s = 1 − v / (r ω)          v ≤ r ω
 *
 * @param speed    carriage speed [m/s]
 * @param turning  wheel speed [rad/s], not zero
 * @param radius   the reference radius of the rig's slip policy [m]
 * @returns        slip [1]; negative when the wheel is in fact braked: then use {@link brakedSkid}
 * @source         ASABE S296 (travel reduction), from memory; common practice
 * @checked        tests/processing/measures/slip.test.ts
 */
export function drivenSlip(speed: Reading<"m/s">, turning: Reading<"rad/s">, radius: Reading<"m">): Reading<"1"> {
  return derive([speed, turning, radius], (v = Number.NaN, omega = Number.NaN, r = Number.NaN) => 1 - v / (r * omega), "1");
}

/**
 * Braked skid: how far the wheel rolls less than it travels.
 *
 *   s_b = 1 − r ω / v          v > r ω
 *
 * Counted from the carriage's speed, not the wheel's, so that a locked wheel has a skid of 1.
 *
 * @param speed    carriage speed [m/s], not zero
 * @param turning  wheel speed [rad/s]
 * @param radius   the reference radius of the rig's slip policy [m]
 * @returns        skid [1], 0 … 1
 * @source         common practice
 * @checked        tests/processing/measures/slip.test.ts
 */
export function brakedSkid(speed: Reading<"m/s">, turning: Reading<"rad/s">, radius: Reading<"m">): Reading<"1"> {
  return derive([speed, turning, radius], (v = Number.NaN, omega = Number.NaN, r = Number.NaN) => 1 - (r * omega) / v, "1");
}

/**
 * Slip and skid as one number: {@link drivenSlip} of a driven wheel, minus {@link brakedSkid} of a braked one.
 *
 *   s = 1 − v/(rω) for v ≤ rω,   s = rω/v − 1 for v > rω
 *
 * Each side keeps its own normalisation; value and slope go on through zero without a step.
 *
 * @param speed    carriage speed [m/s], not zero
 * @param turning  wheel speed [rad/s]
 * @param radius   a reference radius [m]
 * @returns        slip [1], −1 … 1
 * @source         common practice
 * @checked        tests/processing/measures/slip.test.ts
 */
export function signedSlip(speed: Reading<"m/s">, turning: Reading<"rad/s">, radius: Reading<"m">): Reading<"1"> {
  if (speed.value <= turning.value * radius.value) return drivenSlip(speed, turning, radius);
  return derive([brakedSkid(speed, turning, radius)], (skid = Number.NaN) => -skid, "1");
}
