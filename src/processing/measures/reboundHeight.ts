import { estimateFrom } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { speedAt } from "../conditioning/dropEvents.ts";
import type { Flight } from "../conditioning/dropEvents.ts";
import type { DropSignal, HeightSignal } from "../conditioning/dropSignal.ts";
import { gainRow, noiseRow, zeroRow } from "./dropRows.ts";
import { heightAgainstPath } from "./heightAgainstPath.ts";

/** Share of the flight around its apex that the height is taken from, either side. */
const around = 0.15;

/**
 * Height of the apex of a flight above first touch.
 *
 *   h₂ = h(t_a),  v(t_a) = 0
 *
 * The time of the apex comes from the accelerometer; at an apex it hardly matters. [m]
 *
 * @param signal  the zeroed acceleration
 * @param height  the height channel, zero at first touch
 * @param flight  the flight
 * @param leaving its speed at lift-off [m/s]
 * @returns       h₂ and the apex time
 * @source        kinematics
 * @checked       tests/processing/measures/dropMeasures.test.ts
 */
export function reboundHeight(signal: DropSignal, height: HeightSignal, flight: Flight, leaving: number): { readonly height: Estimate<"m">; readonly apexS: number } {
  const apexS = apexTime(signal, flight, leaving);
  const half = around * (flight.to.timeS - flight.from.timeS);
  // At the apex the height does not depend on its time to first order.
  const apex = { instant: { timeS: apexS, uncertaintyS: 0, cause: "time of apex 1" }, acceleration: 0 };
  return { height: heightAgainstPath(signal, height, apexS - half, apexS + half, apex, "apex of flight 1").height, apexS };
}

function apexTime(signal: DropSignal, flight: Flight, leaving: number): number {
  let low = flight.from.timeS;
  let high = flight.to.timeS;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (leaving + speedAt(signal, middle) - speedAt(signal, flight.from.timeS) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Mean deceleration over a stretch in the air.
 *
 *   a = −(∫ a dt) / (t₂ − t₁)
 *
 * [m/s²], positive for a downward acceleration.
 *
 * @param signal  the zeroed acceleration
 * @param fromS   start of the stretch
 * @param toS     its end
 * @param stretch its name in the budget; equal stretches are one cause
 * @returns       the mean with noise, zero and calibration
 * @source        definition
 * @checked       tests/processing/measures/dropMeasures.test.ts
 */
export function airDeceleration(signal: DropSignal, fromS: number, toS: number, stretch: string): Estimate<"m/s2"> {
  const value = (speedAt(signal, fromS) - speedAt(signal, toS)) / (toS - fromS);
  return estimateFrom(value, "m/s2", `mean acceleration over ${stretch}, sign turned`, [
    ...gainRow(signal.doubt, value),
    zeroRow(signal, -1),
    noiseRow(signal, fromS, toS, 1 / (toS - fromS), stretch),
  ]);
}
