import { estimateFrom } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import type { Doubt } from "../../core/recording.ts";
import { mean, standardDeviation } from "../../numerics/statistics.ts";

/** a peak counts when it lasts this long [s] */
const lasting = 0.05;

/**
 * Greatest torque of a drive, as a mean over 50 ms: what a gearbox feels, not what one noisy sample says.
 *
 *   T_p = ½ (mean(odd samples, where the even ones are greatest) + mean(even, where the odd are greatest))     [N·m], over 50 ms
 *
 * The greatest of many noisy means lies high, because the noise chose it. Where one half of the samples chooses the place, the
 * other reads it without that favour: on a level stretch right, on a peak a little low, for the place is missed a little. The
 * plain greatest mean bounds it from above; their distance is in the budget as the half width of a rectangular distribution.
 * Holds for noise that differs from sample to sample. A shorter blow reads low.
 *
 * @param torqueNm   samples of the drive [N·m]
 * @param quietNm    samples before it, for the noise [N·m]
 * @param rateHz     of both
 * @param doubt      what is stated of the torque's calibration and zero; null = nothing
 * @param run        names the noise's budget row
 * @returns          T_p with calibration, zero, noise and the choice of its place in its budget
 * @source           common practice; choosing and reading on separate halves: M. Stone, J. R. Stat. Soc. B 36 (1974) 111, from memory
 * @checked          tests/processing/obstacleRun.test.ts
 */
export function peakTorque(torqueNm: readonly number[], quietNm: readonly number[], rateHz: number, doubt: Doubt | null, run: string): Estimate<"N.m"> {
  const width = Math.max(2, 2 * Math.round(Math.min(torqueNm.length, lasting * rateHz) / 2));
  const half = (first: 0 | 1): number[] => movingMeans(torqueNm.filter((_, i) => i % 2 === first), width / 2);
  const [even, odd] = [half(0), half(1)];
  const peak = ((odd[greatestAt(even, odd.length)] as number) + (even[greatestAt(odd, even.length)] as number)) / 2;
  const most = Math.max(...movingMeans(torqueNm, width));
  const noise = quietNm.length > 2 ? standardDeviation(quietNm) / Math.sqrt(width) : 0;
  const calibration = `calibration ${doubt?.calibration ?? "of the torque"}`;
  return estimateFrom(peak, "N.m", `greatest mean over ${Math.round(1000 * lasting)} ms while the wheel was driven, its place chosen by every other sample and read from the rest; drag of hub and seal inside`, [
    { cause: calibration, effect: (doubt?.relativeGain ?? 0) * peak, sharedBy: calibration, degreesOfFreedom: Infinity },
    { cause: `zero of the torque, ${run}`, effect: doubt?.offset ?? 0, sharedBy: null, degreesOfFreedom: Infinity },
    { cause: `noise of the torque, ${run}`, effect: noise, sharedBy: null, degreesOfFreedom: Math.max(1, quietNm.length - 1) },
    { cause: `where the torque is greatest, ${run}`, effect: (most - peak) / Math.sqrt(3), sharedBy: null, degreesOfFreedom: Infinity, shape: "rectangular" },
  ]);
}

/** Means over so many values in a row. */
function movingMeans(values: readonly number[], width: number): number[] {
  return values.slice(width - 1).map((_, i) => mean(values.slice(i, i + width)));
}

/** Where the greatest of the first so many values stands. */
function greatestAt(values: readonly number[], within: number): number {
  const looked = values.slice(0, within);
  return looked.indexOf(Math.max(...looked));
}
