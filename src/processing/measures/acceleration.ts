import { lineFit } from "../../numerics/lineFit.ts";
import type { Unit } from "../../core/units.ts";
import type { Reading } from "./reading.ts";

/**
 * Acceleration over a window of whole revolutions, from the speeds of single revolutions, so that ripple of the wheel's own frequency
 * stays out of it.
 *
 *   a = slope of vₖ against the revolutions' middles tₖ        aₖ = (vₖ₊₁ − vₖ₋₁)/(tₖ₊₁ − tₖ₋₁), one-sided at the ends
 *
 * [speed unit per s]. Its uncertainty is the slope's standard error; with two revolutions nothing tells it from their scatter, and the
 * whole of it is doubt. Constant gain of speed within a revolution is assumed.
 *
 * @param speed       speed revolution by revolution
 * @param boundariesS ends of the revolutions, one more than revolutions [s]
 * @param unit        unit of the acceleration
 * @param cause       names the doubt in the budget
 * @returns           the acceleration; null with fewer than two revolutions
 * @source            least squares; common practice
 * @checked           tests/processing/measures/acceleration.test.ts
 */
export function acceleration<U extends Unit>(speed: Reading, boundariesS: readonly number[], unit: U, cause: string): Reading<U> | null {
  const v = speed.perRevolution;
  const n = v.length;
  if (n < 2) return null;
  const t = v.map((_, k) => ((boundariesS[k] as number) + (boundariesS[k + 1] as number)) / 2);
  const fit = lineFit(t, v);
  const perRevolution = v.map((_, k) => {
    const [before, after] = [Math.max(0, k - 1), Math.min(n - 1, k + 1)];
    return ((v[after] as number) - (v[before] as number)) / ((t[after] as number) - (t[before] as number));
  });
  const effect = n === 2 ? Math.abs(fit.slope) : Math.sqrt(fit.covariance[1]?.[1] ?? 0);
  return { unit, value: fit.slope, perRevolution, rows: [{ cause, effect, sharedBy: null, degreesOfFreedom: Math.max(1, n - 2) }] };
}
