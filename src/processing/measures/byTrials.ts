import { derivationOf } from "../../core/estimate.ts";
import type { BudgetRow, Estimate } from "../../core/estimate.ts";
import type { Unit } from "../../core/units.ts";
import { monteCarlo, toleranceOf } from "../../numerics/monteCarlo.ts";
import type { Random } from "../../numerics/random.ts";
import { expandedUncertainty } from "../expandedUncertainty.ts";

/** Trials after which it ends; 95 % limits are then known to about half a hundredth of u. */
const most = 200_000;

/** A result as what it was derived from: a Reading is one. */
interface Derived {
  readonly value: number;
  readonly rows: readonly BudgetRow[];
  readonly from?: { readonly inputs: readonly Derived[]; readonly f: (...values: number[]) => number };
}

/**
 * A derived result held against trials of its own formula: whether its linear 95 % interval can stand.
 *
 *   y = f(x₁ + Σ effect · ξ_c, …) + Σ scatter · ξ,   one ξ for each cause, whatever it touches
 *
 * ξ is normal, or rectangular for a cause of which only the bounds are known; normal ones are widened for few degrees of
 * freedom as in the linear interval. The linear interval stands when both its ends lie within half a unit in the first figure
 * of u from those of the trials. The same input gives the same trials. The value and its uncertainty stay as they are; the
 * method says what was found.
 *
 * @param reading   how the result was derived
 * @param estimate  the linear result, its scatter included
 * @returns         the estimate, its method with the outcome of the trials [the estimate's unit]
 * @source          JCGM 101:2008, 6.4.2, 6.4.7, 7.9 and clause 8
 * @checked         tests/processing/measures/byTrials.test.ts
 */
export function byTrials<U extends Unit>(reading: Derived, estimate: Estimate<U>): Estimate<U> {
  const expanded = expandedUncertainty(estimate);
  if (expanded === null || expanded.half === 0) return estimate;
  const read = causesOf(reading);
  const scatter = estimate.budget.filter((row) => !read.has(row.cause));
  const causes = [...read.values(), ...scatter];
  const trial = (random: Random): number => {
    const moved = new Map(causes.map((row) => [row.cause, row.shape === "rectangular" ? Math.sqrt(3) * (2 * random.uniform() - 1) : expanded.widening * random.normal()]));
    return valueAt(reading, moved) + shift(scatter, moved);
  };
  const { low, high, trials } = monteCarlo(trial, { seed: 1, digits: 2, probability: 0.95, most });
  const tolerance = toleranceOf(estimate.standardUncertainty as number, 1);
  const ends = [estimate.value - expanded.half, estimate.value + expanded.half] as const;
  const stands = Math.abs(low - ends[0]) <= tolerance && Math.abs(high - ends[1]) <= tolerance;
  const told = stands ? `${trials} trials confirm the interval` : `the formula is not straight over this doubt: by ${trials} trials 95 % lie from ${low.toPrecision(3)} to ${high.toPrecision(3)}, and that interval is the one to use`;
  return { ...estimate, method: `${estimate.method}; ${told}` };
}

/**
 * The same for a result of `combine`, through all results it was combined from; one that was read is left as it is.
 *
 * @param estimate  a result of this thread
 * @returns         the estimate, its method with the outcome of the trials [the estimate's unit]
 * @source          JCGM 101:2008, as `byTrials`
 * @checked         tests/processing/measures/byTrials.test.ts
 */
export function combinedByTrials<U extends Unit>(estimate: Estimate<U>): Estimate<U> {
  return derivationOf(estimate) === undefined ? estimate : byTrials(derived(estimate), estimate);
}

function derived(estimate: Estimate): Derived {
  const from = derivationOf(estimate);
  return { value: estimate.value, rows: estimate.budget, ...(from !== undefined && { from: { inputs: from.inputs.map(derived), f: from.f } }) };
}

/** Causes behind what was read, each once. */
function causesOf(reading: Derived): Map<string, BudgetRow> {
  if (reading.from === undefined) return new Map(reading.rows.map((row) => [row.cause, row]));
  return new Map(reading.from.inputs.flatMap((input) => [...causesOf(input)]));
}

function valueAt(reading: Derived, moved: ReadonlyMap<string, number>): number {
  return reading.from === undefined ? reading.value + shift(reading.rows, moved) : reading.from.f(...reading.from.inputs.map((input) => valueAt(input, moved)));
}

function shift(rows: readonly BudgetRow[], moved: ReadonlyMap<string, number>): number {
  return rows.reduce((sum, row) => sum + row.effect * (moved.get(row.cause) as number), 0);
}
