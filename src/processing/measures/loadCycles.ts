import type { PressCurve } from "./pressCurve.ts";

/** One loading of a press and, when it was recorded, the unloading after it. Half-open sample ranges. */
export interface LoadCycle {
  readonly valley: number;
  readonly peak: number;
  /** sample at the end of the unloading; null when the log ends before the force came down */
  readonly end: number | null;
}

/** share of the greatest force by which the force must turn back before a turning point counts */
const turn = 0.2;
/** share of the greatest force within which the unloading must come back to where the loading began */
const closed = 0.1;

/**
 * The cycles of a load–deflection log, split at the turning points of the force.
 *
 * A turning point counts when the force then moves back by 20 % of the greatest force, so noise makes none.
 * A cycle is complete when the force comes back to within 10 % of the greatest force of where it began.
 *
 * @param curve   force and displacement from contact on
 * @returns       the cycles in order; empty when the force never rises
 * @source        common practice
 * @checked       tests/processing/measures/loadCycles.test.ts
 */
export function loadCycles(curve: PressCurve): LoadCycle[] {
  const { force } = curve;
  const greatest = force.reduce((most, value) => Math.max(most, value), 0);
  if (!(greatest > 0)) return [];
  const step = turn * greatest;
  const cycles: LoadCycle[] = [];
  let valley = 0;
  let extreme = 0;
  let rising = true;
  let peak = -1;
  for (let i = 1; i < force.length; i++) {
    const value = force[i] as number;
    const at = force[extreme] as number;
    if (rising) {
      if (value > at) extreme = i;
      else if (at - value > step && at - (force[valley] as number) > step) {
        peak = extreme;
        rising = false;
        extreme = i;
      }
    } else if (value < at) extreme = i;
    else if (value - at > step) {
      cycles.push({ valley, peak, end: closing(force, valley, extreme, greatest) });
      valley = extreme;
      rising = true;
      extreme = i;
    }
  }
  if (!rising) cycles.push({ valley, peak, end: closing(force, valley, extreme, greatest) });
  else if ((force[extreme] as number) - (force[valley] as number) > step) cycles.push({ valley, peak: extreme, end: null });
  return cycles;
}

function closing(force: readonly number[], valley: number, end: number, greatest: number): number | null {
  return (force[end] as number) - (force[valley] as number) <= closed * greatest ? end : null;
}
