import type { LoadCycle } from "./loadCycles.ts";
import type { PressCurve } from "./pressCurve.ts";

/** A stretch of held load. Half-open sample range. */
export interface Dwell {
  readonly from: number;
  readonly to: number;
}

/** share of the peak force within which a load counts as held */
const held = 0.03;
/** shortest dwell, as a share of the time of the loading before it: a load that swings as a sine stays that near its peak for a quarter */
const shortest = 0.4;
const fewest = 30;

/**
 * The dwell at the top of one cycle: the stretch from the first sample within 3 % of the peak force as long as the force
 * stays that near.
 *
 *   |F − F_peak| ≤ 0.03 F_peak     for at least 0.4 of the loading's duration and 30 samples
 *
 * Holds for a press that holds its force; one that holds its travel lets the force relax, and what is found is then short.
 *
 * @param curve   force [N] and displacement [m] from contact on
 * @param cycle   which cycle
 * @returns       the samples; null when the load was not held
 * @source        common practice
 * @checked       tests/processing/measures/creep.test.ts
 */
export function dwellOf(curve: PressCurve, cycle: LoadCycle): Dwell | null {
  const peakN = curve.force[cycle.peak] as number;
  const near = (index: number): boolean => Math.abs((curve.force[index] as number) - peakN) <= held * peakN;
  let from = cycle.valley;
  while (from < cycle.peak && !near(from)) from++;
  let to = from;
  while (to < curve.force.length && near(to)) to++;
  const at = (index: number): number => curve.timesS[index] as number;
  const lasts = at(to - 1) - at(from);
  return to - from < fewest || lasts < shortest * (at(from) - at(cycle.valley)) ? null : { from, to };
}
