import type { LoadCycle } from "./loadCycles.ts";
import type { PressCurve } from "./pressCurve.ts";

/** Energies of one complete cycle [J]. */
export interface LoopEnergy {
  /** area of the loop */
  readonly loop: number;
  /** work of the press while loading */
  readonly loading: number;
  /** work given back while unloading */
  readonly unloading: number;
}

/**
 * Energy that one complete cycle dissipates: the area of the loop of force over displacement.
 *
 *   ΔW = ∮ F dδ     [J], trapezoids, closed by a straight line from the end to the beginning
 *
 * Slow cycles only: what the rate adds is inside it.
 *
 * @param curve   force and displacement from contact on
 * @param cycle   which cycle
 * @returns       the three energies; null when the unloading was not recorded to its end
 * @source        common practice
 * @checked       tests/processing/measures/loopEnergy.test.ts
 */
export function loopEnergy(curve: PressCurve, cycle: LoadCycle): LoopEnergy | null {
  if (cycle.end === null) return null;
  const loading = work(curve, cycle.valley, cycle.peak);
  const unloading = -work(curve, cycle.peak, cycle.end);
  const closing = 0.5 * ((curve.force[cycle.end] as number) + (curve.force[cycle.valley] as number)) * ((curve.displacement[cycle.valley] as number) - (curve.displacement[cycle.end] as number));
  return { loop: loading - unloading + closing, loading, unloading };
}

/** ∫ F dδ from one sample to another. */
function work(curve: PressCurve, from: number, to: number): number {
  let sum = 0;
  for (let i = from + 1; i <= to; i++) {
    sum += 0.5 * ((curve.force[i] as number) + (curve.force[i - 1] as number)) * ((curve.displacement[i] as number) - (curve.displacement[i - 1] as number));
  }
  return sum;
}
