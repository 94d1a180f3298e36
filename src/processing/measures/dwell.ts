import { median, standardDeviation } from "../../numerics/statistics.ts";
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
/** standard deviations of the held force below which a sample still belongs to the loading */
const clear = 3;

/**
 * The dwell at the top of one cycle: the stretch of samples within 3 % of the peak force, less what lies below the noise of
 * the held force at either end.
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
  let [from, to] = [cycle.valley, cycle.valley];
  // While the load comes near, its noise carries it in and out; the dwell is the stay that lasts.
  while (to - from < fewest && from <= cycle.peak) {
    from = to + 1;
    while (from <= cycle.peak && !near(from)) from++;
    to = from;
    while (to < curve.force.length && near(to)) to++;
  }
  const at = (index: number): number => curve.timesS[index] as number;
  const lasts = at(to - 1) - at(from);
  if (to - from < fewest || lasts < shortest * (at(from) - at(cycle.valley))) return null;
  // What is left of the loading at the beginning, and of the unloading at the end, lies below the noise of the held force.
  const quarter = Math.floor((to - from) / 4);
  const middle = curve.force.slice(from + quarter, to - quarter);
  const lowest = median(middle) - clear * standardDeviation(middle);
  while (from < cycle.peak && (curve.force[from] as number) < lowest) from++;
  while (to > from + fewest && (curve.force[to - 1] as number) < lowest) to--;
  return { from, to };
}
