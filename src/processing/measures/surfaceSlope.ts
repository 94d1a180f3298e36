import { estimateFrom } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import { standardDeviation } from "../../numerics/statistics.ts";

/** A point of a surface: way along the lane and height, both [m]. */
export interface LanePoint {
  readonly x: number;
  readonly z: number;
}

/**
 * Slope of a scanned surface along the way of the wheel, uphill positive.
 *
 *   β = atan(dz/dx)     dz/dx by an unweighted straight line
 *   u(dz/dx) = √2 s / L     s scatter about the line, L its length
 *
 * What the wheel climbs over the way is the rise between its ends, and the surface strays from the line there: that is the
 * first cause. Errors of neighbouring points may go together, so their number does not make it smaller. The others are the
 * scanner's own slope against the rails and its scale.
 *
 * @param points    of the window, at least three places [m]
 * @param doubt     standard uncertainties of the scanner's slope [1] and of its scale [share], and the name of its calibration
 * @param run       names the scatter's budget row
 * @returns         β [rad]
 * @source          least squares; work against a slope is load times rise. Common practice
 * @checked         tests/processing/measures/surfaceSlope.test.ts
 */
export function surfaceSlope(points: readonly LanePoint[], { slope, relative, shared }: { readonly slope: number; readonly relative: number; readonly shared: string }, run: string): Estimate<"rad"> {
  const x = points.map((point) => point.x);
  const line = lineFit(x, points.map((point) => point.z));
  const length = Math.max(...x) - Math.min(...x);
  // dβ = cos²β · d(dz/dx)
  const turned = 1 / (1 + line.slope ** 2);
  return estimateFrom(Math.atan(line.slope), "rad", `straight line through ${points.length} scanned points over ${length.toFixed(2)} m`, [
    { cause: `straying of the bed from its slope, ${run}`, effect: (turned * Math.SQRT2 * aboutLine(points)) / length, sharedBy: null, degreesOfFreedom: points.length - 2 },
    { cause: `slope of the scanner, ${shared}`, effect: turned * slope, sharedBy: shared, degreesOfFreedom: Infinity },
    { cause: shared, effect: turned * relative * line.slope, sharedBy: shared, degreesOfFreedom: Infinity },
  ]);
}

/**
 * Scatter of a surface about its straight line.
 *
 *   s = √( Σ (zᵢ − line)² / (n − 2) )     [m]
 *
 * @param points  at least three [m]
 * @returns       s [m]
 * @source        least squares, residual standard deviation
 * @checked       tests/processing/measures/surfaceSlope.test.ts
 */
export function aboutLine(points: readonly LanePoint[]): number {
  const line = lineFit(points.map((point) => point.x), points.map((point) => point.z));
  const left = points.map((point) => point.z - line.intercept - line.slope * point.x);
  return standardDeviation(left) * Math.sqrt((points.length - 1) / (points.length - 2));
}

/**
 * Height of a surface between its points, on straight lines.
 *
 * @param points  in order of x [m]
 * @param x       where [m]
 * @returns       height [m]; NaN outside the points
 * @source        linear interpolation
 * @checked       tests/processing/measures/surfaceSlope.test.ts
 */
export function heightAt(points: readonly LanePoint[], x: number): number {
  const next = points.findIndex((point) => point.x >= x);
  const b = points[next];
  const a = points[next - 1] ?? b;
  if (a === undefined || b === undefined || a.x > x) return Number.NaN;
  return b.x === a.x ? b.z : a.z + ((x - a.x) / (b.x - a.x)) * (b.z - a.z);
}
