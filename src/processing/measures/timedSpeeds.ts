import { estimateFrom } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { pathAt } from "../conditioning/dropEvents.ts";
import type { DropEvents } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import { gainRow, noiseRow, timeRow, zeroRow } from "./dropRows.ts";
import { fromDetermined } from "./fromDetermined.ts";

/**
 * Impact and rebound speed with the accelerometer's gain replaced by the drop height.
 *
 *   k = (−∫∫ a dt² over the fall) / h          v₁ = v₁ₐ / k,  v₂ = v₂ₐ / k
 *
 * With a constant acceleration v₁ = 2 h / t_fall. Only the shape of the acceleration and its times enter, so these speeds
 * are independent of the gain, and guide friction does not disturb them, as it does √(2 g h). [m/s]
 *
 * @param signal  the zeroed acceleration
 * @param events  its events
 * @param height  the drop height [m]
 * @param impact  v₁ₐ from the acceleration
 * @param rebound v₂ₐ from the flight's duration
 * @returns       v₁ and v₂
 * @source        kinematics
 * @checked       tests/processing/measures/dropMeasures.test.ts
 */
export function timedSpeeds(signal: DropSignal, events: DropEvents, height: Estimate<"m">, impact: Estimate<"m/s">, rebound: Estimate<"m/s">): { readonly impact: Estimate<"m/s">; readonly rebound: Estimate<"m/s"> } {
  const fallen = fallPath(signal, events, impact.value);
  const scaled = (speed: Estimate<"m/s">, what: string): Estimate<"m/s"> => fromDetermined([speed, fallen, height], (v, path, h) => (v * h) / path, "m/s", `${what}, scaled so that the fall integrates to the drop height`);
  return { impact: scaled(impact, "acceleration over the fall"), rebound: scaled(rebound, "flight 1") };
}

/** Path of the fall from the acceleration alone. */
function fallPath(signal: DropSignal, events: DropEvents, impactSpeed: number): Estimate<"m"> {
  const touch = events.fall.to;
  const value = -pathAt(signal, touch.timeS);
  const duration = touch.timeS - signal.rest.toS;
  return estimateFrom(value, "m", "acceleration integrated twice over the fall", [
    ...gainRow(signal.doubt, value),
    zeroRow(signal, -(duration * duration) / 2),
    noiseRow(signal, signal.rest.toS, touch.timeS, duration / Math.sqrt(3), "fall"),
    timeRow(signal, touch, impactSpeed),
  ]);
}
