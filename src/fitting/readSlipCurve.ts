import { undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import type { Band, SlipCurve } from "../processing/dayResult.ts";
import { pointwiseBand } from "./band.ts";
import { functionOfFit } from "./parameterEstimates.ts";
import { slipShape } from "./slipShapes.ts";

/** how far past the measured slips the curve may be read, because a set slip is met only nearly */
const reach = 0.01;
const bandPoints = 61;
/** steps in which a curve is searched for a value */
const searchSteps = 240;

/**
 * A curve's value at a slip.
 *
 *   u² = gᵀ C g over the constants
 *
 * @param curve  a fitted curve over slip
 * @param slip   driven slip, or minus the skid [1]
 * @returns      the Estimate [1]; undetermined when the fit is, or when the slip lies more than 0.01 outside the slips measured
 * @source       JCGM 100:2008, 5.2.2
 * @checked      tests/fitting/readSlipCurve.test.ts
 */
export function curveAtSlip(curve: SlipCurve, slip: number): Estimate<"1"> {
  const { fit } = curve;
  if (fit.verdict !== "determined") return undetermined("1", `no curve: ${fit.sentence}`);
  const [low, high] = slipRange(curve);
  if (!(slip >= low - reach && slip <= high + reach)) return undetermined("1", `slip ${slip} lies outside the slips measured, ${low.toFixed(3)} to ${high.toFixed(3)}; the curve is not carried beyond them`);
  const shape = slipShape(curve.shape, curve.knots);
  const constants = constantsOf(curve);
  const beyond = slip < low ? low - slip : Math.max(0, slip - high);
  const method = `read from the fitted curve over slip${beyond > 0 ? `, ${beyond.toFixed(4)} beyond the slips measured` : ""}`;
  return functionOfFit(fit, shape.value(slip, constants), shape.slopes(slip, constants).byConstants, "1", method);
}

/**
 * The slip at which a rising curve reaches a value: the lowest such slip.
 *
 *   f(s) = y      ∂s/∂constant = −(∂f/∂constant) / (∂f/∂s)
 *
 * @param curve  a fitted curve over slip
 * @param value  the value looked for [1]
 * @param what   the curve's quantity in words, e.g. "a pull coefficient"
 * @returns      the slip [1]; undetermined when the fit is, or when the curve does not rise through the value between the slips measured
 * @source       implicit function theorem; JCGM 100:2008, 5.2.2
 * @checked      tests/fitting/readSlipCurve.test.ts
 */
export function slipAtValue(curve: SlipCurve, value: number, what: string): Estimate<"1"> {
  const { fit } = curve;
  if (fit.verdict !== "determined") return undetermined("1", `no curve: ${fit.sentence}`);
  const shape = slipShape(curve.shape, curve.knots);
  const constants = constantsOf(curve);
  const [least, greatest] = slipRange(curve);
  const [from, to] = [least - reach, greatest + reach];
  const above = (slip: number): boolean => shape.value(slip, constants) >= value;
  let low = Number.NaN;
  let high = Number.NaN;
  for (let i = 1; i <= searchSteps && Number.isNaN(high); i++) {
    const [left, right] = [from + ((to - from) * (i - 1)) / searchSteps, from + ((to - from) * i) / searchSteps];
    if (!above(left) && above(right)) [low, high] = [left, right];
  }
  if (Number.isNaN(high)) {
    const values = [shape.value(from, constants), shape.value(to, constants)] as const;
    return undetermined("1", `the curve does not rise through ${what} of ${value} between the slips measured, ${least.toFixed(3)} to ${greatest.toFixed(3)}, where it goes from ${values[0].toFixed(3)} to ${values[1].toFixed(3)}`);
  }
  for (let pass = 0; pass < 50; pass++) {
    const middle = (low + high) / 2;
    if (above(middle)) high = middle;
    else low = middle;
  }
  const { byConstants, bySlip } = shape.slopes(high, constants);
  if (!(bySlip > 0)) return undetermined("1", `the curve is level where it meets ${what} of ${value}`);
  return functionOfFit(fit, high, byConstants.map((slope) => -slope / bySlip), "1", `slip at which the fitted curve reaches ${what} of ${value}`);
}

/**
 * The curve with its pointwise 95 % band, between the least and the greatest slip measured.
 *
 *   value ± k u      k as for any one reading, `expandedUncertainty`
 *
 * Pointwise: at any one slip the true curve lies inside with 95 %; the whole true curve at once does so less often.
 *
 * @param curve  a fitted curve over slip
 * @returns      61 slips with value, low and high; null when the fit is not determined
 * @source       JCGM 100:2008, G.3
 * @checked      tests/fitting/readSlipCurve.test.ts
 */
export function curveBand(curve: SlipCurve): Band | null {
  if (curve.fit.verdict !== "determined") return null;
  return pointwiseBand(bandSlips(curve), bandSlips(curve).map((slip) => curveAtSlip(curve, slip)));
}

/**
 * Slips at which bands are drawn.
 *
 * @param curve  a fitted curve over slip
 * @returns      61 slips from the least to the greatest measured
 * @source       a choice of this project
 * @checked      tests/fitting/readSlipCurve.test.ts
 */
export function bandSlips(curve: SlipCurve): number[] {
  const [from, to] = slipRange(curve);
  return Array.from({ length: bandPoints }, (_, i) => from + ((to - from) * i) / (bandPoints - 1));
}

/**
 * Least and greatest slip of the points that count.
 *
 * @param curve  a fitted curve over slip
 * @returns      [least, greatest]
 * @source       a definition
 * @checked      tests/fitting/readSlipCurve.test.ts
 */
export function slipRange(curve: SlipCurve): [number, number] {
  const slips = curve.fit.points.filter((point) => point.kept).map((point) => point.x);
  return [Math.min(...slips), Math.max(...slips)];
}

/**
 * The constants of a curve, in the form's order.
 *
 * @param curve  a fitted curve over slip
 * @returns      their values
 * @source       a definition
 * @checked      tests/fitting/readSlipCurve.test.ts
 */
export function constantsOf(curve: SlipCurve): number[] {
  return curve.fit.parameters.map((parameter) => parameter.estimate.value);
}
