import { lineFit } from "../../numerics/lineFit.ts";
import type { LoadCycle } from "./loadCycles.ts";
import type { PressCurve } from "./pressCurve.ts";

/** A displacement read off a branch, and what its noise leaves open [m]. */
export interface DisplacementRead {
  readonly displacement: number;
  readonly standardError: number;
  readonly degreesOfFreedom: number;
}

const nothing: DisplacementRead = { displacement: Number.NaN, standardError: Number.NaN, degreesOfFreedom: 0 };

/** half-width of the stretch of load read at first, and at most, as a share of the branch's peak */
const narrow = 0.05;
const wide = 0.2;
/** samples that a straight line through the stretch should rest on */
const enough = 8;

/**
 * Displacement at a load on the loading branch of one cycle: a straight line of displacement over force through the
 * samples near that load, read at the load.
 *
 * Holds where the branch is nearly straight over a twentieth of its peak to either side (widened up to a fifth where
 * samples are few). Up to 2 % above the peak the line is read past its end, because a press stops at its set load
 * only nearly.
 *
 * @param curve   force and displacement from contact on
 * @param cycle   which cycle
 * @param loadN   the load [N], > 0
 * @returns       the displacement [m], its standard error from the scatter about that line and its degrees of freedom; NaN when the branch does not reach the load or holds fewer than 3 samples near it
 * @source        common practice
 * @checked       tests/processing/measures/displacementAtLoad.test.ts
 */
export function displacementRead(curve: PressCurve, cycle: LoadCycle, loadN: number): DisplacementRead {
  const peakN = curve.force[cycle.peak] as number;
  if (!(loadN > 0) || loadN > 1.02 * peakN) return nothing;
  for (let half = narrow; half <= wide + 1e-9; half += narrow) {
    const loads: number[] = [];
    const displacements: number[] = [];
    for (let i = cycle.valley; i <= cycle.peak; i++) {
      const load = curve.force[i] as number;
      if (Math.abs(load - loadN) > half * peakN) continue;
      loads.push(load);
      displacements.push(curve.displacement[i] as number);
    }
    const last = half + narrow > wide + 1e-9;
    if (loads.length < (last ? 3 : enough)) continue;
    if (loads.every((load) => load === loads[0])) return nothing;
    const line = lineFit(loads, displacements);
    const [[a, b], [, d]] = line.covariance;
    return { displacement: line.intercept + line.slope * loadN, standardError: Math.sqrt(Math.max(0, a + 2 * b * loadN + d * loadN ** 2)), degreesOfFreedom: loads.length - 2 };
  }
  return nothing;
}

/**
 * Displacement at a load on the loading branch of one cycle, without its standard error.
 *
 *   δ(F)     [m]
 *
 * @param curve   force and displacement from contact on
 * @param cycle   which cycle
 * @param loadN   the load [N], > 0
 * @returns       the displacement [m]; NaN where `displacementRead` has none
 * @source        common practice
 * @checked       tests/processing/measures/displacementAtLoad.test.ts
 */
export function displacementAtLoad(curve: PressCurve, cycle: LoadCycle, loadN: number): number {
  return displacementRead(curve, cycle, loadN).displacement;
}
