import { lineFit } from "../../numerics/lineFit.ts";
import { displacementRead } from "./displacementAtLoad.ts";
import type { LoadCycle } from "./loadCycles.ts";
import type { PressCurve } from "./pressCurve.ts";

/** How far a wheel settles from cycle to cycle. */
export interface Settling {
  /** deflection of the last cycle less that of the first, at the load [m] */
  readonly total: number;
  readonly totalError: number;
  /** growth from one cycle to the next over the used cycles [m] */
  readonly perCycle: number;
  readonly perCycleError: number;
}

/**
 * Settling from cycle to cycle, read at one load on the loading branches and counted from the first contact of the run.
 *
 *   total = δ_n − δ_1     per cycle = slope of δ_k over k for the used cycles     [m]
 *
 * Per cycle it is the slope of an unweighted straight line: (δ_n − δ_m)/(n − m) for two cycles. The standard errors are
 * those of the single readings, propagated; settling that is not straight is not in them.
 *
 * @param curve   force [N] and displacement [m] from contact on
 * @param all     every cycle, in order
 * @param used    those that count, without the conditioning
 * @param loadN   the load it is read at [N]
 * @returns       both, with standard errors; NaN where a cycle does not reach the load or there are not two
 * @source        common practice
 * @checked       tests/processing/measures/settlingPerCycle.test.ts
 */
export function settlingPerCycle(curve: PressCurve, all: readonly LoadCycle[], used: readonly LoadCycle[], loadN: number): Settling {
  const reads = all.map((cycle) => displacementRead(curve, cycle, loadN));
  const first = reads[0];
  const last = reads.at(-1);
  if (first === undefined || last === undefined || reads.length < 2) return { total: Number.NaN, totalError: Number.NaN, perCycle: Number.NaN, perCycleError: Number.NaN };
  const own = reads.slice(all.length - used.length);
  const numbers = own.map((_, k) => k);
  const middle = (own.length - 1) / 2;
  const spread = numbers.reduce((sum, k) => sum + (k - middle) ** 2, 0);
  return {
    total: last.displacement - first.displacement,
    totalError: Math.hypot(first.standardError, last.standardError),
    perCycle: own.length < 2 ? Number.NaN : lineFit(numbers, own.map((read) => read.displacement)).slope,
    perCycleError: Math.hypot(...own.map((read, k) => ((k - middle) / spread) * read.standardError)),
  };
}
