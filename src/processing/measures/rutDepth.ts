import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { effectiveSampleSize, lag1Autocorrelation, mean, standardDeviation } from "../../numerics/statistics.ts";
import { heightAt } from "./surfaceSlope.ts";
import type { LanePoint } from "./surfaceSlope.ts";

/** What is stated of a scanner. */
export interface ScanDoubt {
  readonly relative: number;
  /** of the height of one whole scan [m] */
  readonly offset: number;
  readonly shared: string;
}

const fewest = 5;

/**
 * Depth of the rut that a wheel left: how much lower the surface is after the run, at the same places.
 *
 *   d = mean( z_before(x) − z_after(x) )     [m], x over the points of the second scan
 *   u² = s²/n_eff + 2 u_offset² + (u_relative d)²
 *
 * A quantity of its own, not the sinkage: soil springs back, falls in from the sides, and keeps the marks of the lugs. Points
 * of the first scan are joined by straight lines; neighbouring differences may go together (n_eff).
 *
 * @param before  points of the levelled bed within the wheel's width, in order [m]
 * @param after   points of the rut over the window [m]
 * @param doubt   what is stated of the scanner
 * @param run     names the budget rows
 * @returns       d [m]; undetermined with fewer than five places that both scans reach
 * @source        common practice; rut depth apart from sinkage
 * @checked       tests/processing/measures/rutDepth.test.ts
 */
export function rutDepth(before: readonly LanePoint[], after: readonly LanePoint[], { relative, offset, shared }: ScanDoubt, run: string): Estimate<"m"> {
  const depths = after.map((point) => heightAt(before, point.x) - point.z).filter(Number.isFinite);
  if (depths.length < fewest) return undetermined("m", `both scans together reach ${depths.length} places of the window; ${fewest} are needed`);
  const value = mean(depths);
  const count = Math.max(2, effectiveSampleSize(depths.length, Math.min(0.9, Math.max(0, lag1Autocorrelation(depths)))));
  return estimateFrom(value, "m", `surface before less surface after, mean over ${depths.length} places of the window`, [
    { cause: `scatter of the rut along the lane, ${run}`, effect: standardDeviation(depths) / Math.sqrt(count), sharedBy: null, degreesOfFreedom: count - 1 },
    { cause: `height of one scan against the other, ${run}`, effect: Math.SQRT2 * offset, sharedBy: null, degreesOfFreedom: Infinity },
    { cause: shared, effect: relative * value, sharedBy: shared, degreesOfFreedom: Infinity },
  ]);
}
