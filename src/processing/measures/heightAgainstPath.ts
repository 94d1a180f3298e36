import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { BudgetRow, Estimate } from "../../core/estimate.ts";
import { leastSquares } from "../../numerics/linearAlgebra.ts";
import { effectiveSampleSize, lag1Autocorrelation, mean } from "../../numerics/statistics.ts";
import { pathAt, speedAt } from "../conditioning/dropEvents.ts";
import type { Instant } from "../conditioning/dropEvents.ts";
import type { DropSignal, HeightSignal } from "../conditioning/dropSignal.ts";
import { gainRow, timeRow } from "./dropRows.ts";

/** Height and speed at one time, both from the height channel. */
export interface HeightReading {
  readonly height: Estimate<"m">;
  /** positive upwards */
  readonly speed: Estimate<"m/s">;
}

/** The time at which height and speed are wanted. */
export interface At {
  readonly instant: Instant;
  /** acceleration there [m/s²] */
  readonly acceleration: number;
}

/** Fewest height samples for a slope. */
const fewest = 8;

/**
 * Height and its rate at a time t₀ in the air, from the height channel over a stretch near it.
 *
 *   h(t) = h₀ + v₀ (t − t₀) + c ∫∫ₜ₀ a dt²,   h₀, v₀, c by least squares
 *
 * The acceleration gives the curvature its shape, guide friction included; its size c is fitted, so that the gain of the
 * accelerometer does not enter and the result can be held against it. [m], [m/s].
 *
 * @param signal the zeroed acceleration
 * @param height the height channel
 * @param fromS  start of the stretch, in the air
 * @param toS    end of the stretch, in the air
 * @param at     t₀, and the acceleration there, by which its doubt moves v₀
 * @param label  names the stretch in the budget
 * @returns      h₀ and v₀; undetermined with fewer than 8 height samples; correlated residuals widen the uncertainty
 * @source       kinematics; linear least squares
 * @checked      tests/processing/measures/dropMeasures.test.ts
 */
export function heightAgainstPath(signal: DropSignal, height: HeightSignal, fromS: number, toS: number, at: At, label: string): HeightReading {
  const atS = at.instant.timeS;
  const rows: number[][] = [];
  const heights: number[] = [];
  height.timesS.forEach((timeS, i) => {
    const value = height.values[i] as number;
    if (timeS < fromS || timeS >= toS || Number.isNaN(value)) return;
    const path = pathAt(signal, timeS) - pathAt(signal, atS) - speedAt(signal, atS) * (timeS - atS);
    if (Number.isNaN(path)) return;
    rows.push([1, timeS - atS, path]);
    heights.push(value);
  });
  if (rows.length < fewest) {
    const reason = `the height channel has ${rows.length} samples in the stretch (${label}), fewer than ${fewest}`;
    return { height: undetermined("m", reason), speed: undetermined("m/s", reason) };
  }
  const { solution, covarianceFactor, residuals } = leastSquares(rows, heights);
  const [level, rate] = solution as [number, number, number];
  const spread = residuals.some((r) => r !== 0) ? Math.min(0.99, Math.max(0, lag1Autocorrelation(residuals))) : 0;
  const count = Math.max(4, effectiveSampleSize(rows.length, spread));
  const variance = (residuals.reduce((sum, r) => sum + r * r, 0) / (rows.length - 3)) * (rows.length / count);
  const row = (what: string, index: 0 | 1): BudgetRow => ({ cause: `noise of the height, ${label}, ${what}, ${signal.run}`, effect: Math.sqrt(variance * Math.max(0, covarianceFactor[index]?.[index] ?? 0)), sharedBy: null, degreesOfFreedom: Math.max(1, count - 3) });
  const method = `height channel over ${((toS - fromS) * 1000).toFixed(0)} ms (${label}), its curvature shaped as the acceleration`;
  return {
    height: estimateFrom(level, "m", method, [row("level", 0), ...gainRow(height.doubt, level), offsetRow(signal, height), timeRow(signal, at.instant, rate)]),
    speed: estimateFrom(rate, "m/s", method, [row("slope", 1), ...gainRow(height.doubt, rate), timeRow(signal, at.instant, at.acceleration)]),
  };
}

function offsetRow(signal: DropSignal, height: HeightSignal): BudgetRow {
  return { cause: `offset of the height, ${signal.run}`, effect: height.doubt?.offset ?? 0, sharedBy: null, degreesOfFreedom: Infinity };
}

/**
 * Mean height over the rest before the release.
 *
 *   h₁ = mean h
 *
 * [m] above first touch, where the channel has its zero.
 *
 * @param signal the zeroed acceleration, for its rest
 * @param height the height channel
 * @returns      h₁; undetermined with fewer than 8 samples
 * @source       definition
 * @checked      tests/processing/measures/dropMeasures.test.ts
 */
export function restHeight(signal: DropSignal, height: HeightSignal): Estimate<"m"> {
  const values = height.values.filter((value, i) => (height.timesS[i] as number) >= signal.rest.fromS && (height.timesS[i] as number) < signal.rest.toS && !Number.isNaN(value));
  if (values.length < fewest) return undetermined("m", `the height channel has ${values.length} samples in the rest before release, fewer than ${fewest}`);
  const value = mean(values);
  const scatter = Math.sqrt(values.reduce((sum, v) => sum + (v - value) ** 2, 0) / (values.length - 1));
  const lag1 = scatter > 0 ? Math.min(0.99, Math.max(0, lag1Autocorrelation(values))) : 0;
  const count = Math.max(2, effectiveSampleSize(values.length, lag1));
  return estimateFrom(value, "m", "mean of the height channel over the rest before release", [
    { cause: `noise of the height, rest, ${signal.run}`, effect: scatter / Math.sqrt(count), sharedBy: null, degreesOfFreedom: count - 1 },
    ...gainRow(height.doubt, value),
    offsetRow(signal, height),
  ]);
}
