import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { BudgetRow, Estimate } from "../../core/estimate.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import { effectiveSampleSize, lag1Autocorrelation, mean } from "../../numerics/statistics.ts";
import { pathAt, speedAt } from "../conditioning/dropEvents.ts";
import type { DropSignal, HeightSignal } from "../conditioning/dropSignal.ts";
import { gainRow } from "./dropRows.ts";

/** Height and speed at one time, both from the height channel. */
export interface HeightReading {
  readonly height: Estimate<"m">;
  /** positive upwards */
  readonly speed: Estimate<"m/s">;
}

/** Fewest height samples for a slope. */
const fewest = 8;

/**
 * Height and its rate at a time t₀ in the air, from the height channel over a stretch near it.
 *
 *   h(t) − ∫∫ₜ₀ a dt² = h₀ + v₀ (t − t₀)
 *
 * The measured acceleration takes out the curvature, so a straight line holds over a long stretch, with guide friction too.
 * [m], [m/s].
 *
 * @param signal the zeroed acceleration
 * @param height the height channel
 * @param fromS  start of the stretch, in the air
 * @param toS    end of the stretch, in the air
 * @param atS    t₀
 * @param label  names the stretch in the budget
 * @returns      h₀ and v₀; undetermined with fewer than 8 height samples
 * @throws       never
 * @source       kinematics; straight-line least squares
 * @checked      tests/processing/measures/dropMeasures.test.ts
 */
export function heightAgainstPath(signal: DropSignal, height: HeightSignal, fromS: number, toS: number, atS: number, label: string): HeightReading {
  const elapsed: number[] = [];
  const heights: number[] = [];
  const paths: number[] = [];
  height.timesS.forEach((timeS, i) => {
    const value = height.values[i] as number;
    const path = pathAt(signal, timeS) - pathAt(signal, atS) - speedAt(signal, atS) * (timeS - atS);
    if (timeS < fromS || timeS >= toS || Number.isNaN(value) || Number.isNaN(path)) return;
    elapsed.push(timeS - atS);
    heights.push(value);
    paths.push(path);
  });
  if (elapsed.length < fewest) {
    const reason = `the height channel has ${elapsed.length} samples in the stretch (${label}), fewer than ${fewest}`;
    return { height: undetermined("m", reason), speed: undetermined("m/s", reason) };
  }
  const line = lineFit(elapsed, heights.map((value, i) => value - (paths[i] as number)));
  // The same line had the accelerometer read 1 more per unit: how its gain enters through the curvature.
  const tilted = lineFit(elapsed, paths);
  const residuals = elapsed.map((t, i) => (heights[i] as number) - (paths[i] as number) - line.intercept - line.slope * t);
  const spread = residuals.some((r) => r !== 0) ? Math.min(0.99, Math.max(0, lag1Autocorrelation(residuals))) : 0;
  const widening = Math.sqrt(elapsed.length / effectiveSampleSize(elapsed.length, spread));
  const row = (what: string, variance: number): BudgetRow => ({ cause: `noise of the height, ${label}, ${what}, ${signal.run}`, effect: Math.sqrt(Math.max(0, variance)) * widening, sharedBy: null, degreesOfFreedom: Math.max(1, line.degreesOfFreedom / widening ** 2) });
  const offset = height.doubt?.offset ?? 0;
  const method = `height channel over ${((toS - fromS) * 1000).toFixed(0)} ms (${label}), its curvature taken from the acceleration`;
  return {
    height: estimateFrom(line.intercept, "m", method, [
      row("level", line.covariance[0]?.[0] ?? 0),
      ...gainRow(height.doubt, line.intercept + tilted.intercept),
      ...gainRow(signal.doubt, -tilted.intercept),
      { cause: `offset of the height, ${signal.run}`, effect: offset, sharedBy: null, degreesOfFreedom: Infinity },
    ]),
    speed: estimateFrom(line.slope, "m/s", method, [
      row("slope", line.covariance[1]?.[1] ?? 0),
      ...gainRow(height.doubt, line.slope + tilted.slope),
      ...gainRow(signal.doubt, -tilted.slope),
    ]),
  };
}

/** Mean height over the rest before the release. */
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
    { cause: `offset of the height, ${signal.run}`, effect: height.doubt?.offset ?? 0, sharedBy: null, degreesOfFreedom: Infinity },
  ]);
}
