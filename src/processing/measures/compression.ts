import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { pathAt, speedAt } from "../conditioning/dropEvents.ts";
import type { Instant } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import { gainRow, noiseRow, shiftRows, timeRow, zeroRow } from "./dropRows.ts";

/**
 * How far the hub has come below its height at first touch, at a time in the first contact.
 *
 *   d(t) = v₁ (t − t₁) − ∫∫ a dt²    both integrals from first touch t₁ on;  d(t₁) = 0
 *
 * [m]: compression of the wheel on ground that does not yield. Anchored by the contact speed v₁, which is itself the integral
 * of the acceleration from the rest before release: no other anchor, so the end of the contact is a check.
 *
 * @param signal  the zeroed acceleration
 * @param touch   t₁ and its doubt
 * @param impact  v₁ [m/s], with its budget
 * @param instant t, and its uncertainty
 * @returns       d
 * @source        kinematics
 * @checked       tests/processing/measures/dropContact.test.ts
 */
export function compressionAt(signal: DropSignal, touch: Instant, impact: Estimate<"m/s">, instant: Instant): Estimate<"m"> {
  const duration = instant.timeS - touch.timeS;
  const value = pathAt(signal, touch.timeS) - pathAt(signal, instant.timeS);
  return estimateFrom(value, "m", "acceleration integrated twice from first touch, anchored by the contact speed", [
    // The instant's own doubt moves speed and way together and stands in its row alone.
    ...impact.budget.filter((row) => !row.cause.startsWith("time of")).map((row) => ({ ...row, effect: row.effect * duration })),
    ...gainRow(signal.doubt, value - impact.value * duration),
    zeroRow(signal, -(duration ** 2) / 2),
    ...shiftRows(signal, -(duration ** 2) / 2),
    noiseRow(signal, touch.timeS, instant.timeS, duration / Math.sqrt(3), "contact 1, twice integrated"),
    timeRow(signal, touch, speedAt(signal, touch.timeS)),
    timeRow(signal, instant, -speedAt(signal, instant.timeS)),
  ]);
}

/**
 * When the hub turns round in the first contact.
 *
 *   v(t_m) = 0
 *
 * [s] on the run's clock. Its doubt does not matter to the compression there, whose rate is zero.
 *
 * @param signal the zeroed acceleration
 * @param touch  first touch
 * @returns      t_m; null when the log ends or misses samples before
 * @source       kinematics
 * @checked      tests/processing/measures/dropContact.test.ts
 */
export function turningTime(signal: DropSignal, touch: Instant): number | null {
  const from = signal.timesS.findIndex((timeS) => timeS > touch.timeS);
  for (let i = Math.max(1, from); i < signal.timesS.length; i++) {
    const here = signal.speed[i] as number;
    if (Number.isNaN(here)) return null;
    if (here < 0) continue;
    const before = signal.speed[i - 1] as number;
    return (signal.timesS[i] as number) - ((here / (here - before)) * ((signal.timesS[i] as number) - (signal.timesS[i - 1] as number)));
  }
  return null;
}

/**
 * Largest compression of the first contact.
 *
 *   d_m = d(t_m),  v(t_m) = 0
 *
 * [m]
 *
 * @param signal  the zeroed acceleration
 * @param touch   first touch
 * @param impact  v₁ [m/s]
 * @param clipped true when the contact was cut off at the sensor's range
 * @returns       d_m
 * @source        kinematics
 * @checked       tests/processing/measures/dropContact.test.ts
 */
export function largestCompression(signal: DropSignal, touch: Instant, impact: Estimate<"m/s">, clipped: boolean): Estimate<"m"> {
  if (clipped) return undetermined("m", "the acceleration was cut off at the sensor's range during the contact");
  const timeS = turningTime(signal, touch);
  if (timeS === null) return undetermined("m", "the log ends, or samples are missing, before the hub turns round");
  return compressionAt(signal, touch, impact, { timeS, uncertaintyS: 0, cause: "time of largest compression" });
}
