import { displacementAtLoad } from "./displacementAtLoad.ts";
import type { LoadCycle } from "./loadCycles.ts";
import type { PressCurve } from "./pressCurve.ts";

/**
 * Secant stiffness on the loading branch of one cycle.
 *
 *   k_sec = F / δ(F)     [N/m], δ counted from first contact
 *
 * @param curve   force and displacement from contact on
 * @param cycle   which cycle
 * @param loadN   the load it is read at [N]
 * @returns       k_sec; NaN when the load was not reached
 * @source        common practice
 * @checked       tests/processing/measures/secantStiffness.test.ts
 */
export function secantStiffness(curve: PressCurve, cycle: LoadCycle, loadN: number): number {
  return loadN / displacementAtLoad(curve, cycle, loadN);
}
