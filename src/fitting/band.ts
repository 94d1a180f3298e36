import type { Estimate } from "../core/estimate.ts";
import type { Band } from "../processing/dayResult.ts";
import { expandedUncertainty } from "../processing/expandedUncertainty.ts";

/**
 * The band of each estimate's own 95 % interval.
 *
 *   value ± k u
 *
 * @param x          abscissae
 * @param estimates  one each
 * @returns          the band
 * @source           `expandedUncertainty`
 * @checked          tests/fitting/band.test.ts
 */
export function pointwiseBand(x: readonly number[], estimates: readonly Estimate[]): Band {
  return bandOf(x, estimates, (estimate) => expandedUncertainty(estimate)?.k ?? Number.NaN);
}

/**
 * A band from estimates along x.
 *
 *   value ± k u
 *
 * @param x          abscissae
 * @param estimates  one each
 * @param factor     k of an estimate
 * @returns          the band
 * @source           JCGM 100:2008, 6.2.1
 * @checked          tests/fitting/band.test.ts
 */
export function bandOf(x: readonly number[], estimates: readonly Estimate[], factor: (estimate: Estimate) => number): Band {
  const value = estimates.map((estimate) => estimate.value);
  const half = estimates.map((estimate) => factor(estimate) * (estimate.standardUncertainty ?? Number.NaN));
  return { x, value, low: value.map((v, i) => v - (half[i] as number)), high: value.map((v, i) => v + (half[i] as number)) };
}
