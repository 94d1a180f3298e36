import { estimateFrom } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import type { Doubt } from "../../core/recording.ts";
import { mean, standardDeviation } from "../../numerics/statistics.ts";

/** a peak counts when it lasts this long [s] */
const lasting = 0.05;

/**
 * Greatest torque of a drive, as a mean over 50 ms: what a gearbox feels, not what one noisy sample says.
 *
 *   T_p = max over t of mean(T, t … t + 50 ms)     [N·m]
 *
 * A shorter blow reads low. Noise makes the greatest of many means lie a little high; that noise is in the budget.
 *
 * @param torqueNm   samples of the drive [N·m]
 * @param quietNm    samples before it, for the noise [N·m]
 * @param rateHz     of both
 * @param doubt      what is stated of the torque's calibration and zero; null = nothing
 * @param run        names the noise's budget row
 * @returns          T_p with calibration, zero and noise in its budget
 * @source           common practice
 * @checked          tests/processing/obstacleRun.test.ts
 */
export function peakTorque(torqueNm: readonly number[], quietNm: readonly number[], rateHz: number, doubt: Doubt | null, run: string): Estimate<"N.m"> {
  const width = Math.max(1, Math.min(torqueNm.length, Math.round(lasting * rateHz)));
  let peak = -Infinity;
  for (let i = 0; i + width <= torqueNm.length; i++) peak = Math.max(peak, mean(torqueNm.slice(i, i + width)));
  const noise = quietNm.length > 2 ? standardDeviation(quietNm) / Math.sqrt(width) : 0;
  const calibration = `calibration ${doubt?.calibration ?? "of the torque"}`;
  return estimateFrom(peak, "N.m", `greatest mean over ${Math.round(1000 * lasting)} ms while the wheel was driven; drag of hub and seal inside`, [
    { cause: calibration, effect: (doubt?.relativeGain ?? 0) * peak, sharedBy: calibration, degreesOfFreedom: Infinity },
    { cause: `zero of the torque, ${run}`, effect: doubt?.offset ?? 0, sharedBy: null, degreesOfFreedom: Infinity },
    { cause: `noise of the torque, ${run}`, effect: noise, sharedBy: null, degreesOfFreedom: Math.max(1, quietNm.length - 1) },
  ]);
}
