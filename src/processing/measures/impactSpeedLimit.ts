import { estimateFrom } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { Measured } from "../../core/measure.ts";
import { likelyUnit } from "../../core/likelyUnit.ts";
import { fromDetermined } from "./fromDetermined.ts";

/** Share of speed lost in the guide from which a person looks at it. Common practice: 5 % is usual. */
const usualLoss = 0.05;

/**
 * Largest speed a fall from a height can give.
 *
 *   v ≤ √(2 g h)
 *
 * [m/s]. Reached without guide friction and air; so it bounds the impact speed and does not replace it.
 *
 * @param height  drop height h above first touch [m]
 * @param gravity g at the laboratory [m/s²]
 * @param impact  the measured impact speed that is held against it
 * @returns       the bound; findings when the measured speed is above it by more than three standard uncertainties and 1 %, or below it by more than 5 %
 * @source        energy balance of free fall
 * @checked       tests/processing/measures/dropMeasures.test.ts
 */
export function impactSpeedLimit(height: Estimate<"m">, gravity: number, impact: Estimate<"m/s">): Measured<"m/s"> {
  const estimate = fromDetermined([height], (h) => Math.sqrt(2 * gravity * h), "m/s", `√(2 g h), ${height.method}; an upper bound, reached without guide friction`);
  return { estimate, findings: held(impact, estimate) };
}

function held(impact: Estimate<"m/s">, bound: Estimate<"m/s">): Finding[] {
  const loss = 1 - impact.value / bound.value;
  const doubt = (3 * Math.hypot(impact.standardUncertainty ?? 0, bound.standardUncertainty ?? 0)) / bound.value;
  const numbers = { channel: "hubAcceleration", measured: Math.abs(loss) };
  if (loss < -Math.max(doubt, 0.01)) return [finding("faster-than-fall", "look", `The hub touches at ${impact.value.toFixed(3)} m/s, faster than a free fall from the drop height can give (${bound.value.toFixed(3)} m/s). Look at the drop height on the run sheet and at the accelerometer's gain.${likelyUnit(impact.value / bound.value, "acceleration")}`, { ...numbers, limit: Math.max(doubt, 0.01) })];
  if (loss > usualLoss) return [finding("guide-friction", "look", `The hub touches at ${impact.value.toFixed(3)} m/s, ${(100 * loss).toFixed(1)} % below a free fall from the drop height. Look at the friction of the guide, at the drop height, and at the accelerometer's gain.${likelyUnit(impact.value / bound.value, "acceleration")}`, { ...numbers, limit: usualLoss })];
  return [];
}

/**
 * The drop height as set by hand.
 *
 *   h ± u
 *
 * [m]. It has an uncertainty only if the rig description states one; none is assumed.
 *
 * @param heightM      h from the run sheet
 * @param uncertaintyM u from the rig description
 * @param run          id of the run, for the budget
 * @returns            h; without u its uncertainty is not determined
 * @source             statement of the laboratory
 * @checked            tests/processing/measures/dropMeasures.test.ts
 */
export function setHeight(heightM: number, uncertaintyM: number | undefined, run: string): Estimate<"m"> {
  if (uncertaintyM === undefined) return { value: heightM, standardUncertainty: null, unit: "m", degreesOfFreedom: 0, method: "drop height as set on the run sheet; rig.yaml states no drop.heightUncertainty", budget: [] };
  return estimateFrom(heightM, "m", "drop height as set on the run sheet", [{ cause: `set drop height, ${run}`, effect: uncertaintyM, sharedBy: null, degreesOfFreedom: Infinity }]);
}
