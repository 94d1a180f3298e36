import { formFit } from "./formFit.ts";
import type { FormFit, FormPoint } from "./formFit.ts";

/**
 * The stress of `humpedCurve` at a displacement.
 *
 *   τ = [τ_r + (τ_m/(1 − 1/e) − τ_r) e^(1 − j/K_w)] (1 − e^(−j/K_w))
 *
 * @param displacementM   j [m]; below zero there is no stress
 * @param constants       τ_m [Pa], τ_r [Pa], K_w [m]
 * @returns               τ [Pa]
 * @source                J. Y. Wong, Theory of Ground Vehicles, chapter on shear; from memory, with τ_r for K_r τ_m
 * @checked               tests/processing/measures/humpedCurve.test.ts
 */
export function stressWithHump(displacementM: number, [stressAtPeakPa = 0, residualPa = 0, displacementAtPeakM = 0]: readonly number[]): number {
  const left = Math.exp(-Math.max(0, displacementM) / displacementAtPeakM);
  return (residualPa + (stressAtPeakPa / (1 - 1 / Math.E) - residualPa) * Math.E * left) * (1 - left);
}

/**
 * A hump and a residual stress through the points of one shear run.
 *
 *   τ = [τ_r + (τ_m/(1 − 1/e) − τ_r) e^(1 − j/K_w)] (1 − e^(−j/K_w))      least squares in the stress
 *
 * Holds for soil with one peak that comes down to a level; τ_r is where the curve goes to, not where the travel ended.
 *
 * @param points             shear displacement [m] rising, shear stress [Pa]
 * @param peakDisplacementM  where the greatest stress stands [m], to begin from
 * @returns                  τ_m [Pa], τ_r [Pa], K_w [m]; null with fewer than 5 points, or where the stress goes back to nothing or nowhere
 * @source                   form as `stressWithHump`; least squares, common practice
 * @checked                  tests/processing/measures/humpedCurve.test.ts
 */
export function humpedCurve(points: readonly FormPoint[], peakDisplacementM: number): FormFit | null {
  const last = points.at(-1);
  const greatest = points.reduce((most, { y }) => Math.max(most, y), 0);
  if (last === undefined || !(last.x > peakDisplacementM && peakDisplacementM > 0 && greatest > 0)) return null;
  const found = formFit(points, stressWithHump, [
    { start: greatest, lower: 0.1 * greatest, upper: 3 * greatest },
    { start: Math.max(last.y, 0.1 * greatest), lower: 1e-3 * greatest, upper: greatest },
    { start: peakDisplacementM, lower: 0.05 * peakDisplacementM, upper: 3 * last.x },
  ]);
  return found === null || found.atBound.includes(true) ? null : found;
}
