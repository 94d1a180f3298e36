import { estimateFrom } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import type { Fit } from "../core/fit.ts";
import { studentTQuantile } from "../numerics/distributions.ts";
import { lineFit } from "../numerics/lineFit.ts";

const fewestBeds = 4;

/**
 * Whether beds became firmer or softer through the day: a straight line of the cone index gradient, or of the mean cone
 * index, over the number of the bed, in the order of beds.csv.
 *
 *   G_i = G_1 + s (i − 1)     s in Pa/m (gradient) or Pa (index) from bed to bed
 *
 * Beds count alike; their scatter about the line is the uncertainty. A trend is called determined when s differs from zero
 * by more than its 95 % interval.
 *
 * @param cones  gradients or indices of the beds, in the order of beds.csv
 * @param what   which of the two, as it stands in sentences
 * @returns      the line as a Fit; null with fewer than two beds that have a value
 * @source       least squares with a t interval, Draper & Smith, Applied Regression Analysis (from memory)
 * @checked      tests/fitting/coneTrend.test.ts
 */
export function coneTrendFrom(cones: readonly { readonly bed: string; readonly value: Estimate<"Pa/m" | "Pa"> }[], what: "gradient" | "mean index"): Fit | null {
  const beds = cones.map((cone, index) => ({ ...cone, number: index + 1 })).filter((cone) => Number.isFinite(cone.value.value));
  if (beds.length < 2) return null;
  const unit = beds[0]?.value.unit ?? "Pa";
  const symbol = what === "gradient" ? "G" : "CI";
  const points = beds.map((bed) => ({ run: bed.bed, x: bed.number, y: bed.value.value, yUncertainty: bed.value.standardUncertainty, kept: true, reason: "" }));
  const shared = { model: `cone ${what} from bed to bed`, formula: `${symbol} = ${symbol}1 + s · (i − 1); i number of the bed, ${symbol}1 and s in ${unit}`, points, findings: [] };
  if (beds.length < fewestBeds) return { ...shared, parameters: [], covariance: [], residuals: [], degreesOfFreedom: 0, verdict: "undetermined", sentence: `${beds.length} beds with a ${what}; ${fewestBeds} are needed to tell a trend from chance.` };
  const line = lineFit(points.map((point) => point.x - 1), points.map((point) => point.y));
  const scatter = (variance: number) => [{ cause: "scatter between beds", effect: Math.sqrt(variance), sharedBy: null, degreesOfFreedom: line.degreesOfFreedom }];
  const limit = studentTQuantile(0.975, line.degreesOfFreedom) * Math.sqrt(line.covariance[1][1]);
  const told = Math.abs(line.slope) > limit;
  const change = (100 * line.slope * (beds.length - 1)) / line.intercept;
  return {
    ...shared,
    parameters: [
      { name: "firstBed", symbol: `${symbol}1`, estimate: estimateFrom(line.intercept, unit, "straight line over the beds in order", scatter(line.covariance[0][0])) },
      { name: "fromBedToBed", symbol: "s", estimate: estimateFrom(line.slope, unit, "straight line over the beds in order", scatter(line.covariance[1][1])) },
    ],
    covariance: line.covariance,
    residuals: points.map((point) => point.y - line.intercept - line.slope * (point.x - 1)),
    degreesOfFreedom: line.degreesOfFreedom,
    verdict: told ? "determined" : "undetermined",
    sentence: told ? `Over ${beds.length} beds the ${what} ${line.slope > 0 ? "rises" : "falls"} by ${Math.abs(change).toFixed(1)} % from the first to the last: compare wheels within a block, or keep it beside the pull.` : `Over ${beds.length} beds no trend is told from chance: ${change.toFixed(1)} % from the first to the last, within what single beds scatter.`,
  };
}
