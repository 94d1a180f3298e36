import { combine, estimateFrom } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { pathAt, speedAt } from "../conditioning/dropEvents.ts";
import type { Flight } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import { gainRow, noiseRow, shiftRows, timeRow, zeroRow } from "./dropRows.ts";

/**
 * Speed of the hub at lift-off, from the contact.
 *
 *   v₂ = Δv − v₁
 *
 * [m/s], positive upwards.
 *
 * @param impact v₁
 * @param change Δv over the first contact
 * @returns      v₂; causes that both share (calibration, zero, time of touch) act together
 * @source       definition
 * @checked      tests/processing/measures/dropMeasures.test.ts
 */
export function reboundSpeed(impact: Estimate<"m/s">, change: Estimate<"m/s">): Estimate<"m/s"> {
  return combine([impact, change], (v1, dv) => dv - v1, "m/s", "acceleration integrated from the rest over fall and contact to lift-off");
}

/**
 * Speed of the hub when it leaves the ground, from the flight that follows.
 *
 *   v = −(1/T) ∫₀ᵀ (T − τ) a(τ) dτ          with a = −g:  v = g T / 2
 *
 * Holds when the hub touches again at the height at which it left. The measured acceleration is weighted, so guide friction,
 * which brakes the rise and holds up the fall, is seen. [m/s]
 *
 * @param signal the zeroed acceleration
 * @param flight the flight
 * @param index  1 for the first
 * @returns      v, positive upwards; rows of noise, zero, calibration and both times
 * @source       kinematics: the path over the flight is zero
 * @checked      tests/processing/measures/dropMeasures.test.ts
 */
export function flightSpeed(signal: DropSignal, flight: Flight, index: number): Estimate<"m/s"> {
  const duration = flight.to.timeS - flight.from.timeS;
  // Path over the flight had it started at zero speed; the true start makes it zero.
  const fallen = pathAt(signal, flight.to.timeS) - pathAt(signal, flight.from.timeS) - speedAt(signal, flight.from.timeS) * duration;
  const value = -fallen / duration;
  return estimateFrom(value, "m/s", `flight ${index}: its duration and the acceleration measured in it`, [
    ...gainRow(signal.doubt, value),
    zeroRow(signal, -duration / 2),
    ...shiftRows(signal, -duration / 2),
    noiseRow(signal, flight.from.timeS, flight.to.timeS, 1 / Math.sqrt(3), `flight ${index}`),
    timeRow(signal, flight.from, flight.leaving / 2),
    timeRow(signal, flight.to, -flight.touching / 2),
  ]);
}

/**
 * Speed of the hub when it touches again, from the flight before.
 *
 *   v′ = −(1/T) ∫₀ᵀ τ a(τ) dτ          with a = −g:  v′ = g T / 2
 *
 * Holds as {@link flightSpeed}. [m/s]
 *
 * @param signal the zeroed acceleration
 * @param flight the flight
 * @param index  1 for the first
 * @returns      v′, positive downwards
 * @source       kinematics: the path over the flight is zero
 * @checked      tests/processing/measures/dropMeasures.test.ts
 */
export function returnSpeed(signal: DropSignal, flight: Flight, index: number): Estimate<"m/s"> {
  const duration = flight.to.timeS - flight.from.timeS;
  const lost = speedAt(signal, flight.from.timeS) - speedAt(signal, flight.to.timeS);
  const leaving = flightSpeed(signal, flight, index);
  const value = lost - leaving.value;
  return estimateFrom(value, "m/s", `flight ${index}: its duration and the acceleration measured in it`, [
    ...gainRow(signal.doubt, value),
    zeroRow(signal, -duration / 2),
    ...shiftRows(signal, -duration / 2),
    noiseRow(signal, flight.from.timeS, flight.to.timeS, 1 / Math.sqrt(3), `flight ${index}`),
    timeRow(signal, flight.from, flight.leaving / 2),
    timeRow(signal, flight.to, -flight.touching / 2),
  ]);
}
