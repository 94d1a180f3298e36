import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import type { Decay } from "../conditioning/decayPeaks.ts";
import { fromDetermined } from "./fromDetermined.ts";

/** A peak of the decay: its size above rest, and when, in cycles. */
export interface PeakSize {
  readonly cycle: number;
  readonly size: number;
  /** standard uncertainty of the size; null = not known, all alike */
  readonly uncertainty: number | null;
}

/**
 * Logarithmic decrement of a decaying oscillation, by regression over all its peaks.
 *
 *   ln xₙ = ln x₀ − δ n,   n in cycles (half cycles count 0.5)
 *
 * For two peaks δ = ln(x₀/xₙ)/n. [1]. Holds for one lightly damped mode with viscous damping; sizes from rest.
 *
 * @param peaks sizes above zero; 3 or more for an uncertainty
 * @returns     δ; its uncertainty is the larger of what the scatter about the line and the stated uncertainties give
 * @source      S. S. Rao, Mechanical Vibrations, logarithmic decrement (from memory)
 * @checked     tests/processing/measures/damping.test.ts
 */
export function logarithmicDecrement(peaks: readonly PeakSize[]): Estimate<"1"> {
  const clear = peaks.filter((peak) => peak.size > 0);
  if (clear.length < peaks.length) return undetermined("1", "a peak does not stand above rest, so it has no logarithm");
  if (clear.length < 2) return undetermined("1", `${clear.length} peaks, and a decrement needs two`);
  const cycles = clear.map((peak) => peak.cycle);
  const logs = clear.map((peak) => Math.log(peak.size));
  const stated = clear.every((peak) => peak.uncertainty !== null && peak.uncertainty > 0);
  const weights = clear.map((peak) => (stated ? (peak.size / (peak.uncertainty as number)) ** 2 : 1));
  const line = lineFit(cycles, logs, weights);
  const method = `regression of the logarithm of ${clear.length} peaks on the cycle`;
  if (clear.length < 3) return undetermined("1", `${method}; no uncertainty from fewer than three peaks`, -line.slope);
  const scatter = Math.sqrt(line.covariance[1][1]);
  const total = weights.reduce((sum, w) => sum + w, 0);
  const centre = weights.reduce((sum, w, i) => sum + w * (cycles[i] as number), 0) / total;
  const fromNoise = stated ? 1 / Math.sqrt(weights.reduce((sum, w, i) => sum + w * ((cycles[i] as number) - centre) ** 2, 0)) : 0;
  const noisy = fromNoise > scatter;
  return estimateFrom(-line.slope, "1", method, [{ cause: noisy ? "noise of the peaks" : "scatter of the peaks about the line", effect: Math.max(scatter, fromNoise), sharedBy: null, degreesOfFreedom: noisy ? Infinity : line.degreesOfFreedom }]);
}

/**
 * Damping ratio from the logarithmic decrement.
 *
 *   ζ = δ / √(4π² + δ²)
 *
 * [1]. Holds for ζ < 1.
 *
 * @param decrement δ
 * @returns         ζ
 * @source          S. S. Rao, Mechanical Vibrations, logarithmic decrement (from memory)
 * @checked         tests/processing/measures/damping.test.ts
 */
export function dampingFromDecrement(decrement: Estimate<"1">): Estimate<"1"> {
  return fromDetermined([decrement], (delta) => delta / Math.sqrt(4 * Math.PI ** 2 + delta ** 2), "1", decrement.method);
}

/**
 * Damping ratio of the ringing after the last flight, from its successive peaks on both sides of rest.
 *
 *   ln |aₖ| = ln |a₀| − δ k/2          ζ = δ / √(4π² + δ²)
 *
 * The acceleration decays as the displacement does. The gain of the accelerometer drops out; the level of rest does not. [1]
 *
 * @param decay peaks clear of the noise, from `decayPeaks`
 * @param run   id of the run, for the budget
 * @returns     ζ; undetermined with fewer than 3 peaks clear of the noise
 * @source      S. S. Rao, Mechanical Vibrations, logarithmic decrement (from memory)
 * @checked     tests/processing/measures/damping.test.ts
 */
export function dampingByDecrement(decay: Decay, run: string): Estimate<"1"> {
  if (decay.peaks.length < 3) return undetermined("1", `${decay.peaks.length} peaks stand clear of the noise after the last flight; a decrement needs three`);
  const ratio = (shift: number): Estimate<"1"> => dampingFromDecrement(logarithmicDecrement(sizes(decay, shift)));
  const estimate = ratio(0);
  const moved = ratio(decay.restUncertainty);
  return estimateFrom(estimate.value, "1", `${estimate.method}, both sides of rest`, [
    ...estimate.budget.map((row) => ({ ...row, cause: `${row.cause}, ${run}` })),
    { cause: `rest level of the decay, ${run}`, effect: moved.value - estimate.value, sharedBy: null, degreesOfFreedom: Infinity },
  ]);
}

function sizes(decay: Decay, shift: number): PeakSize[] {
  return decay.peaks.map((peak, k) => ({ cycle: k / 2, size: Math.abs(peak.height - shift), uncertainty: peak.uncertainty }));
}
