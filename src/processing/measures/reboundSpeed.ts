import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { BudgetRow, Estimate } from "../../core/estimate.ts";
import { pathAt, speedAt } from "../conditioning/dropEvents.ts";
import type { Contact, Flight } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import { gainRow, noiseRow, shiftRows, timeRow, zeroRow } from "./dropRows.ts";
import { fromDetermined } from "./fromDetermined.ts";

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
  return fromDetermined([impact, change], (v1, dv) => dv - v1, "m/s", "acceleration integrated from the rest over fall and contact to lift-off");
}

/** A flight seen by its duration: what it starts from and where it ends. */
export interface TimedFlight {
  readonly flight: Flight;
  /** 1 for the first */
  readonly index: number;
  /** how much higher the hub touches again than it left; 0 = at the same height */
  readonly rise: Estimate<"m">;
}

/**
 * Speed of the hub when it leaves the ground, from the flight that follows.
 *
 *   v = (r − ∫₀ᵀ (T − τ) a(τ) dτ) / T          with a = −g, r = 0:  v = g T / 2
 *
 * The measured acceleration is weighted, so guide friction, which brakes the rise and holds up the fall, is seen. r: a wheel
 * leaves the ground before it has its full shape again and touches with its full shape. On ground that yields it touches
 * lower, and a rim that still swings is in or out by as much, so r is uncertain by its own size (rectangular, half-width the
 * root of the mean of r², which is r² + u²(r)). [m/s]
 *
 * @param signal the zeroed acceleration
 * @param timed  the flight and r, from {@link riseOfFlight}
 * @returns      v, positive upwards; rows of noise, zero, calibration, both times and r
 * @source       kinematics
 * @checked      tests/processing/measures/dropMeasures.test.ts
 */
export function flightSpeed(signal: DropSignal, timed: TimedFlight): Estimate<"m/s"> {
  const { flight, index, rise } = timed;
  const duration = flight.to.timeS - flight.from.timeS;
  // Path over the flight had it started at zero speed.
  const fallen = pathAt(signal, flight.to.timeS) - pathAt(signal, flight.from.timeS) - speedAt(signal, flight.from.timeS) * duration;
  const value = (rise.value - fallen) / duration;
  return estimateFrom(value, "m/s", `flight ${index}: its duration and the acceleration measured in it`, [...gainRow(signal.doubt, -fallen / duration), ...flightRows(signal, timed, 1)]);
}

/**
 * Speed of the hub when it touches again, from the flight before.
 *
 *   v′ = −(r + ∫₀ᵀ τ a(τ) dτ) / T          with a = −g, r = 0:  v′ = g T / 2
 *
 * As {@link flightSpeed}. [m/s]
 *
 * @param signal the zeroed acceleration
 * @param timed  the flight and r
 * @returns      v′, positive downwards
 * @source       kinematics
 * @checked      tests/processing/measures/dropMeasures.test.ts
 */
export function returnSpeed(signal: DropSignal, timed: TimedFlight): Estimate<"m/s"> {
  const { flight, index, rise } = timed;
  const lost = speedAt(signal, flight.from.timeS) - speedAt(signal, flight.to.timeS);
  const value = lost - flightSpeed(signal, timed).value;
  const duration = flight.to.timeS - flight.from.timeS;
  return estimateFrom(value, "m/s", `flight ${index}: its duration and the acceleration measured in it`, [...gainRow(signal.doubt, value + rise.value / duration), ...flightRows(signal, timed, -1)]);
}

/** Rows of a speed from a flight; r enters the speeds of leaving and touching with opposite signs, by its own doubt and by how far the wheel comes back to its shape. */
function flightRows(signal: DropSignal, timed: TimedFlight, sign: 1 | -1): BudgetRow[] {
  const { flight, index, rise } = timed;
  const duration = flight.to.timeS - flight.from.timeS;
  return [
    zeroRow(signal, -duration / 2),
    ...shiftRows(signal, -duration / 2),
    noiseRow(signal, flight.from.timeS, flight.to.timeS, 1 / Math.sqrt(3), `flight ${index}`),
    timeRow(signal, flight.from, flight.leaving / 2),
    timeRow(signal, flight.to, -flight.touching / 2),
    ...rise.budget.map((row) => ({ ...row, effect: (sign * row.effect) / duration })),
    { cause: `height at lift-off ${index}, ${signal.run}`, effect: (sign * Math.hypot(rise.value, rise.standardUncertainty ?? 0)) / duration / Math.sqrt(3), sharedBy: null, degreesOfFreedom: Infinity, shape: "rectangular" },
  ];
}

/**
 * How far below the height of its touch the hub leaves the ground again, from the contact before a flight.
 *
 *   r = −[ v t + ∫∫ a dt² ]  over the contact, v the speed at its start (negative: downwards)
 *
 * [m]. What made v wrong makes r wrong: a wheel thought to have come down too far touches faster than it seems, and is then
 * thought to leave the ground again from too low.
 *
 * @param signal  the zeroed acceleration
 * @param contact the contact before the flight
 * @param touch   speed at its start, positive downwards [m/s]
 * @returns       r with the rows of v, of both times, of zero and calibration; undetermined when the contact has no end
 * @source        kinematics
 * @checked       tests/processing/measures/dropMeasures.test.ts
 */
export function riseOfFlight(signal: DropSignal, contact: Contact, touch: Estimate<"m/s">): Estimate<"m"> {
  if (contact.to === null) return undetermined("m", "the wheel stays on the ground, so the contact has no end");
  const duration = contact.to.timeS - contact.from.timeS;
  const path = pathAt(signal, contact.to.timeS) - pathAt(signal, contact.from.timeS) - speedAt(signal, contact.from.timeS) * duration;
  const leaving = speedAt(signal, contact.to.timeS) - speedAt(signal, contact.from.timeS) - touch.value;
  return estimateFrom(touch.value * duration - path, "m", "height of the touch over that of lift-off, by the acceleration in contact", [
    ...touch.budget.map((row) => ({ ...row, effect: row.effect * duration })),
    ...gainRow(signal.doubt, -path),
    zeroRow(signal, -(duration ** 2) / 2),
    timeRow(signal, contact.from, -touch.value - signal.gravity * duration),
    timeRow(signal, contact.to, -leaving),
  ]);
}
