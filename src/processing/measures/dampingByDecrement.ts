import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { chiSquareQuantile } from "../../numerics/distributions.ts";
import { leastSquares } from "../../numerics/linearAlgebra.ts";
import type { Decay } from "../conditioning/decayPeaks.ts";
import { fromDetermined } from "./fromDetermined.ts";

/** Fewest peaks that can tell unlike sides from the decay. */
const fewestForSides = 4;

/** Chance that peaks which scatter by their stated uncertainties alone are taken to scatter by more. */
const alarm = 0.05;

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
 *   with unlike sides:   ln xₙ = ln x₀ − δ n ± α xₙ,   + and − by turns
 *
 * For two peaks δ = ln(x₀/xₙ)/n. [1]. Holds for one lightly damped mode with viscous damping; sizes from rest. A wheel that
 * stiffens under load has larger peaks on that side, by a part that goes with the square of the swing.
 *
 * @param peaks       sizes above zero; 3 or more for an uncertainty
 * @param unlikeSides whether the peaks stand on two sides by turns that may be unlike; takes 4 peaks
 * @returns           δ; its uncertainty by the stated uncertainties, or by the scatter about the line where that is clearly greater
 * @source            S. S. Rao, Mechanical Vibrations, logarithmic decrement; unlike sides: A. H. Nayfeh and D. T. Mook, Nonlinear Oscillations, quadratic stiffness (both from memory)
 * @checked           tests/processing/measures/damping.test.ts
 */
export function logarithmicDecrement(peaks: readonly PeakSize[], unlikeSides = false): Estimate<"1"> {
  const clear = peaks.filter((peak) => peak.size > 0);
  if (clear.length < peaks.length) return undetermined("1", "a peak does not stand above rest, so it has no logarithm");
  if (clear.length < 2) return undetermined("1", `${clear.length} peaks, and a decrement needs two`);
  const sides = unlikeSides && clear.length >= fewestForSides;
  const largest = Math.max(...clear.map((peak) => peak.size));
  const rows = clear.map((peak, k) => [1, peak.cycle, ...(sides ? [((k % 2 === 0 ? 1 : -1) * peak.size) / largest] : [])]);
  const stated = clear.every((peak) => peak.uncertainty !== null && peak.uncertainty > 0);
  const weights = clear.map((peak) => (stated ? (peak.size / (peak.uncertainty as number)) ** 2 : 1));
  const { solution, covarianceFactor, residuals } = leastSquares(rows, clear.map((peak) => Math.log(peak.size)), weights);
  const delta = -(solution[1] as number);
  const method = `regression of the logarithm of ${clear.length} peaks on the cycle${sides ? ", its two sides unlike by a part that goes with the peak" : ""}`;
  const degreesOfFreedom = clear.length - (rows[0] as number[]).length;
  if (degreesOfFreedom < 1) return undetermined("1", `${method}; no uncertainty from fewer than three peaks`, delta);
  const unit = covarianceFactor[1]?.[1] as number;
  const scatter = Math.sqrt((unit * residuals.reduce((sum, r, i) => sum + (weights[i] as number) * r * r, 0)) / degreesOfFreedom);
  const fromNoise = stated ? Math.sqrt(unit) : 0;
  // of a few peaks the scatter is a poor measure: it stands only where it is clearly greater than their stated uncertainties explain
  const noisy = scatter ** 2 <= (fromNoise ** 2 * chiSquareQuantile(1 - alarm, degreesOfFreedom)) / degreesOfFreedom;
  // After a correction of one order comes one of at most about its square, either way.
  const further = sides ? [{ cause: "large swings beyond the second harmonic", effect: (solution[2] as number) ** 2 / Math.sqrt(3), sharedBy: null, degreesOfFreedom: Infinity, shape: "rectangular" as const }] : [];
  return estimateFrom(delta, "1", method, [...further, { cause: noisy ? "noise of the peaks" : "scatter of the peaks about the line", effect: noisy ? fromNoise : scatter, sharedBy: null, degreesOfFreedom: noisy ? Infinity : degreesOfFreedom }]);
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
 *   ln |aₖ| = ln |a₀| − δ k/2 ± α |aₖ|          ζ = δ / √(4π² + δ²)
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
  if (decay.peaks.length < 3) return undetermined("1", `peaks that stand clear of the noise after the last flight: ${decay.peaks.length}; a decrement needs three`);
  const ratio = (shift: number): Estimate<"1"> => dampingFromDecrement(logarithmicDecrement(sizes(decay, shift), true));
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
