import { combine, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import type { Unit } from "../../core/units.ts";

/**
 * A function of Estimates, as `combine`; where one of them has no value, its reason alone is passed on.
 *
 *   y = f(x₁, x₂ …)
 *
 * Units as f's.
 *
 * @param inputs the Estimates
 * @param f      called with their values in order
 * @param unit   of the result
 * @param method of the result
 * @returns      y with its budget, or undetermined with the first missing input's reason
 * @source       JCGM 100:2008, 5.2, correlated inputs
 * @checked      tests/processing/measures/restitution.test.ts
 */
export function fromDetermined<U extends Unit>(inputs: readonly Estimate[], f: (...values: number[]) => number, unit: U, method: string): Estimate<U> {
  const missing = inputs.find((input) => input.standardUncertainty === null && !Number.isFinite(input.value));
  return missing === undefined ? combine(inputs, f, unit, method) : undetermined(unit, missing.method);
}
