import { normalQuantile } from "../../numerics/distributions.ts";
import { median } from "../../numerics/statistics.ts";
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

/**
 * What the noise of single samples leaves open in the loop's area.
 *
 *   u² = s_F² Σ ((δᵢ₊₁ − δᵢ₋₁)/2)² + s_δ² Σ ((Fᵢ₊₁ − Fᵢ₋₁)/2)²      s = median |Δ³x| / (0.6745 √20)
 *
 * Third differences are free of any smooth course; of independent noise their variance is 20 times its own. Their median is
 * worth about an eighth of the samples. [J]
 *
 * @param curve   force and displacement from contact on
 * @param cycle   which cycle
 * @returns       standard error of the area and its degrees of freedom; null when the unloading was not recorded to its end or the cycle holds fewer than 12 samples
 * @source        propagation through the trapezoids, JCGM 100:2008, 5.1.2; difference-based variance: Gasser, Sroka & Jennen-Steinmetz, Biometrika 73 (1986) 625 (from memory)
 * @checked       tests/processing/measures/loopEnergy.test.ts
 */
export function loopEnergyNoise(curve: PressCurve, cycle: LoadCycle): { readonly standardError: number; readonly degreesOfFreedom: number } | null {
  if (cycle.end === null || cycle.end - cycle.valley < 12) return null;
  const forces = curve.force.slice(cycle.valley, cycle.end + 1);
  const displacements = curve.displacement.slice(cycle.valley, cycle.end + 1);
  const variance = noiseVariance(forces) * arms(displacements) + noiseVariance(displacements) * arms(forces);
  return { standardError: Math.sqrt(variance), degreesOfFreedom: Math.floor((forces.length - 3) / 8) };
}

/** By the median, so that a jump where the press turns counts for nothing. */
function noiseVariance(values: readonly number[]): number {
  const third = values.slice(3).map((value, i) => Math.abs(value - 3 * (values[i + 2] as number) + 3 * (values[i + 1] as number) - (values[i] as number)));
  return (median(third) / normalQuantile(0.75)) ** 2 / 20;
}

/** Sum of squares of the arms by which single samples enter the area. */
function arms(values: readonly number[]): number {
  let sum = 0;
  for (let i = 1; i + 1 < values.length; i++) sum += (((values[i + 1] as number) - (values[i - 1] as number)) / 2) ** 2;
  return sum;
}
