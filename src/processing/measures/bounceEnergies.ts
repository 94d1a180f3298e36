import type { Estimate } from "../../core/estimate.ts";
import { returnSpeed, flightSpeed, riseOfFlight } from "./reboundSpeed.ts";
import type { Contact, DropEvents } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import { motionEnergy } from "./contactEnergy.ts";

/**
 * Energy of the motion at first touch and after every bounce that a flight shows.
 *
 *   E₀ = ½ m v₁²,   Eₙ = ½ m vₙ²,  vₙ the speed at lift-off n, from the flight after it
 *
 * [J]. A bounce whose flight the log does not show to its end has no entry.
 *
 * @param signal the zeroed acceleration
 * @param events its events
 * @param mass   m [kg]
 * @param impact v₁ [m/s]
 * @returns      E₀, E₁, …
 * @source       definition
 * @checked      tests/processing/measures/dropContact.test.ts
 */
export function bounceEnergies(signal: DropSignal, events: DropEvents, mass: Estimate<"kg">, impact: Estimate<"m/s">): Estimate<"J">[] {
  const energies = [motionEnergy(mass, impact, "½ m v² at first touch")];
  let touching = impact;
  events.flights.forEach((flight, i) => {
    const timed = { flight, index: i + 1, rise: riseOfFlight(signal, events.contacts[i] as Contact, touching) };
    energies.push(motionEnergy(mass, flightSpeed(signal, timed), `½ m v² after bounce ${i + 1}, speed from its flight`));
    touching = returnSpeed(signal, timed);
  });
  return energies;
}
