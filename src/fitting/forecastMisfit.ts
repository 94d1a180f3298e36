import { studentTQuantile } from "../numerics/distributions.ts";
import type { WheelQuantity, WheelSubject } from "./wheelObservations.ts";
import { missKey } from "./wheelMisfit.ts";
import type { WheelSoilFit } from "./wheelSoilFit.ts";

const normal95 = 1.959963984540054;

/**
 * What the model may miss of the next run of a wheel.
 *
 *   tested:  √(δ² + σ_bed² + σ_wheel²)        not tested:  √(δ² + σ_bed² + (σ_wheel t₀.₉₇₅(m − 1)/1.96)²),  m wheels tested
 *
 * A wheel that was not tested deviates by as much as wheels differ, and few wheels tell that poorly: Student's factor
 * widens it so that 1.96 times the result is the interval of 95 %. A kind of wheel that was not among the runs: the model
 * misses of it at least what it misses of the others.
 *
 * @param fit        a converged fit
 * @param quantity   which share
 * @param wheel      any wheel
 * @returns          standard deviation of the share [1]
 * @source           JCGM 100:2008, 5.1.2 and G.3; wheels as a sample of wheels: common practice
 * @checked          tests/fitting/wheelMisfit.test.ts
 */
export function forecastMisfit(fit: WheelSoilFit, quantity: WheelQuantity, wheel: WheelSubject): number {
  const whole = fit.discrepancy[missKey(quantity, wheel)] ?? Math.max(0, ...Object.entries(fit.discrepancy).flatMap(([key, delta]) => (key.startsWith(quantity) ? [delta] : [])));
  const tested = new Set(fit.data.map(({ observation }) => observation.wheel.id));
  return tested.has(wheel.id) ? whole : widenedForWheel(whole, fit.misfit.wheels[quantity], tested.size);
}

/**
 * The misfit of a tested wheel, widened for one that was not.
 *
 *   √(whole² + σ_wheel² ((t₀.₉₇₅(m − 1)/1.96)² − 1))
 *
 * @param whole    of a tested wheel, σ_wheel inside [1]
 * @param spread   σ_wheel [1]; 0 = not told
 * @param wheels   m, how many were tested
 * @returns        standard deviation of the share [1]
 * @source         as `forecastMisfit`
 * @checked        tests/fitting/wheelMisfit.test.ts
 */
export function widenedForWheel(whole: number, spread: number, wheels: number): number {
  if (spread === 0) return whole;
  const factor = studentTQuantile(0.975, Math.max(1, wheels - 1)) / normal95;
  return Math.sqrt(whole ** 2 + spread ** 2 * (factor ** 2 - 1));
}
