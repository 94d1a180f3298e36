import { estimateFrom } from "../core/estimate.ts";
import type { Fit } from "../core/fit.ts";
import { studentTQuantile } from "../numerics/distributions.ts";
import { lineFit } from "../numerics/lineFit.ts";
import type { DayResult } from "../processing/dayResult.ts";

const fewestBeds = 4;

/**
 * Whether beds became firmer or softer through the day: a straight line of the cone index gradient over the number of the
 * bed, in the order of beds.csv.
 *
 *   G_i = G_1 + s (i − 1)     s in Pa/m from bed to bed
 *
 * Beds count alike; their scatter about the line is the uncertainty. A trend is called determined when s differs from zero
 * by more than its 95 % interval.
 *
 * @param cones  gradients of the beds, in the order of beds.csv
 * @returns      the line as a Fit; null with fewer than two gradients
 * @source       least squares with a t interval, Draper & Smith, Applied Regression Analysis (from memory)
 * @checked      tests/fitting/coneTrend.test.ts
 */
export function coneTrendFrom(cones: DayResult["cones"]): Fit | null {
  const beds = cones.map((cone, index) => ({ ...cone, number: index + 1 })).filter((cone) => Number.isFinite(cone.gradient.value));
  if (beds.length < 2) return null;
  const points = beds.map((bed) => ({ run: bed.bed, x: bed.number, y: bed.gradient.value, yUncertainty: bed.gradient.standardUncertainty, kept: true, reason: "" }));
  const shared = { model: "cone gradient from bed to bed", formula: "G = G1 + s · (i − 1); i number of the bed, G1 and s in Pa/m", points, findings: [] };
  if (beds.length < fewestBeds) return { ...shared, parameters: [], covariance: [], residuals: [], degreesOfFreedom: 0, verdict: "undetermined", sentence: `${beds.length} beds with a gradient; ${fewestBeds} are needed to tell a trend from chance.` };
  const line = lineFit(points.map((point) => point.x - 1), points.map((point) => point.y));
  const scatter = (variance: number) => [{ cause: "scatter between beds", effect: Math.sqrt(variance), sharedBy: null, degreesOfFreedom: line.degreesOfFreedom }];
  const limit = studentTQuantile(0.975, line.degreesOfFreedom) * Math.sqrt(line.covariance[1][1]);
  const told = Math.abs(line.slope) > limit;
  const change = (100 * line.slope * (beds.length - 1)) / line.intercept;
  return {
    ...shared,
    parameters: [
      { name: "firstBed", symbol: "G1", estimate: estimateFrom(line.intercept, "Pa/m", "straight line over the beds in order", scatter(line.covariance[0][0])) },
      { name: "fromBedToBed", symbol: "s", estimate: estimateFrom(line.slope, "Pa/m", "straight line over the beds in order", scatter(line.covariance[1][1])) },
    ],
    covariance: line.covariance,
    residuals: points.map((point) => point.y - line.intercept - line.slope * (point.x - 1)),
    degreesOfFreedom: line.degreesOfFreedom,
    verdict: told ? "determined" : "undetermined",
    sentence: told ? `Over ${beds.length} beds the gradient ${line.slope > 0 ? "rises" : "falls"} by ${Math.abs(change).toFixed(1)} % from the first to the last: compare wheels within a block, or keep the gradient beside the pull.` : `Over ${beds.length} beds no trend is told from chance: ${change.toFixed(1)} % from the first to the last, within what single beds scatter.`,
  };
}
