import { estimateFrom, undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import type { SlipCurve } from "../processing/dayResult.ts";
import { curveAtSlip, constantsOf, slipAtValue } from "./readSlipCurve.ts";
import { slipShape } from "./slipShapes.ts";

/**
 * The self-propelled point: the slip at which a wheel pulls nothing and carries itself only.
 *
 *   P(s)/W = 0
 *
 * @param pull   pull coefficient over slip
 * @returns      the slip [1]; undetermined where the curve does not pass zero between the slips measured
 * @source       self-propelled condition of ISTVS terminology and ASABE S296, from memory
 * @checked      tests/fitting/zeroPoints.test.ts
 */
export function selfPropelledPoint(pull: SlipCurve): Estimate<"1"> {
  return slipAtValue(pull, 0, "a pull coefficient");
}

/**
 * The towed point: slip and pull coefficient of a wheel that rolls without torque. Minus this pull is the towing resistance.
 *
 *   G(s_T) = 0, P_T = P(s_T)        G: gross traction ratio T/(rW)
 *   ∂P_T/∂constant of G = −(dP/ds)(∂G/∂constant)/(dG/ds)
 *
 * Scatter of the two curves counts as independent; what they share (calibration, radius, load) keeps its signs.
 *
 * @param pull    pull coefficient over slip
 * @param gross   gross traction ratio over slip, of the same runs
 * @returns       slip and pull coefficient [1]; undetermined where no torque-free slip lies between the slips measured
 * @source        towed condition of ISTVS terminology and ASABE S296, from memory
 * @checked       tests/fitting/zeroPoints.test.ts
 */
export function towedPoint(pull: SlipCurve, gross: SlipCurve): { readonly slip: Estimate<"1">; readonly pull: Estimate<"1"> } {
  const slip = slipAtValue(gross, 0, "a gross traction ratio");
  const at = slip.standardUncertainty === null ? undetermined("1", slip.method) : curveAtSlip(pull, slip.value);
  if (at.standardUncertainty === null) return { slip, pull: at };
  const steepness = slipShape(pull.shape, pull.knots).slopes(slip.value, constantsOf(pull)).bySlip;
  const alongCurve = slip.budget.map((row) => ({ ...row, effect: row.effect * steepness }));
  return { slip, pull: estimateFrom(at.value, "1", "pull coefficient where the fitted gross traction is zero", [...at.budget, ...alongCurve]) };
}
