import { estimateFrom } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";

/**
 * A number read from a curve, with the doubt that its form was chosen: between slips that lie far apart the forms go different ways.
 *
 *   u_form = (greatest − least over the forms) / √12
 *
 * @param chosen   as read from the chosen form
 * @param forms    the same number read from every form that could be fitted
 * @param run      names the budget row, e.g. the wheel and load
 * @returns        the chosen number with one more budget row; as it is where it is not determined or no other form gives one
 * @source         rectangular distribution over the forms' range: JCGM 100:2008, 4.3.7
 * @checked        tests/fitting/formDoubt.test.ts
 */
export function withFormDoubt(chosen: Estimate<"1">, forms: readonly Estimate<"1">[], run: string): Estimate<"1"> {
  const values = forms.filter((form) => form.standardUncertainty !== null).map((form) => form.value);
  if (chosen.standardUncertainty === null || values.length < 2) return chosen;
  const effect = (Math.max(...values) - Math.min(...values)) / Math.sqrt(12);
  return estimateFrom(chosen.value, "1", `${chosen.method}; ${values.length} forms of the curve agree to ${(Math.max(...values) - Math.min(...values)).toPrecision(2)}`, [...chosen.budget, { cause: `form of the curve, ${run}`, effect, sharedBy: null, degreesOfFreedom: Infinity }]);
}
