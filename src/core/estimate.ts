import type { Unit } from "./units.ts";

/** One cause of uncertainty in one result. */
export interface BudgetRow {
  /** names the physical cause; rows of equal cause move together and add with their signs */
  readonly cause: string;
  /** change of the result when the cause moves by one standard uncertainty (signed); its size is the standard uncertainty it brings */
  readonly effect: number;
  /** the calibration, condition or record that also touches other runs; null = this run alone */
  readonly sharedBy: string | null;
  /** degrees of freedom behind the cause; Infinity when stated by a certificate */
  readonly degreesOfFreedom: number;
  /** only bounds are known of the cause, and it lies anywhere between them; otherwise normal */
  readonly shape?: "rectangular";
}

/** A number with its unit, its uncertainty and how it came about. */
export interface Estimate<U extends Unit = Unit> {
  readonly value: number;
  /** null = could not be determined; the method says why */
  readonly standardUncertainty: number | null;
  readonly unit: U;
  readonly degreesOfFreedom: number;
  readonly method: string;
  readonly budget: readonly BudgetRow[];
}

/** A stated condition under which the data gave no answer. */
export function undetermined<U extends Unit>(unit: U, reason: string, value = Number.NaN): Estimate<U> {
  return { value, standardUncertainty: null, unit, degreesOfFreedom: 0, method: reason, budget: [] };
}

/** Rows this far below the largest are what rounding leaves where causes cancel. */
const rounding = 1e-9;

/** Rows of equal cause added with their signs; what cancelled is dropped; largest first. */
export function mergeRows(rows: readonly BudgetRow[]): BudgetRow[] {
  const byCause = new Map<string, BudgetRow>();
  for (const row of rows) {
    const known = byCause.get(row.cause);
    byCause.set(row.cause, known === undefined ? row : { ...known, effect: known.effect + row.effect, degreesOfFreedom: Math.min(known.degreesOfFreedom, row.degreesOfFreedom) });
  }
  const sorted = [...byCause.values()].filter((row) => row.effect !== 0).sort((a, b) => Math.abs(b.effect) - Math.abs(a.effect));
  const least = rounding * Math.abs(sorted[0]?.effect ?? 0);
  return sorted.filter((row) => Math.abs(row.effect) > least);
}

/**
 * An Estimate from a value and its budget: independent causes add in quadrature, equal causes with their signs;
 * effective degrees of freedom by Welch–Satterthwaite.
 *
 *   u² = Σ uᵢ²        ν = u⁴ / Σ (uᵢ⁴ / νᵢ)
 *
 * @source JCGM 100:2008, 5.1.2 and G.4.1
 */
export function estimateFrom<U extends Unit>(value: number, unit: U, method: string, rows: readonly BudgetRow[]): Estimate<U> {
  const budget = mergeRows(rows);
  let variance = 0;
  let fourth = 0;
  for (const row of budget) {
    variance += row.effect ** 2;
    fourth += row.effect ** 4 / row.degreesOfFreedom;
  }
  if (!Number.isFinite(value)) return { value, standardUncertainty: null, unit, degreesOfFreedom: 0, method, budget };
  return { value, standardUncertainty: Math.sqrt(variance), unit, degreesOfFreedom: fourth > 0 ? variance ** 2 / fourth : Infinity, method, budget };
}

/** How a result came from others. */
export interface Derivation {
  readonly inputs: readonly Estimate[];
  readonly f: (...values: number[]) => number;
}

// beside the Estimates, because a function cannot go with them between threads
const derivations = new WeakMap<Estimate, Derivation>();

/** The inputs and the function behind a result of `combine` in this thread; undefined for one that was read. */
export function derivationOf(estimate: Estimate): Derivation | undefined {
  return derivations.get(estimate);
}

/** The same result with its method told otherwise. */
export function toldAs<U extends Unit>(estimate: Estimate<U>, method: string): Estimate<U> {
  const told = { ...estimate, method };
  const derivation = derivations.get(estimate);
  if (derivation !== undefined) derivations.set(told, derivation);
  return told;
}

/**
 * A function of several Estimates, to first order, with causes they share kept coherent.
 *
 * @param inputs   the Estimates; every one must have a standard uncertainty, else the result has none
 * @param f        called with the inputs' values in order; differentiated by central differences
 */
export function combine<U extends Unit>(inputs: readonly Estimate[], f: (...values: number[]) => number, unit: U, method: string): Estimate<U> {
  const values = inputs.map((input) => input.value);
  const value = f(...values);
  const missing = inputs.find((input) => input.standardUncertainty === null);
  if (missing !== undefined) return undetermined(unit, `${method}; no uncertainty, because: ${missing.method}`, value);
  const rows = inputs.flatMap((input, index) => {
    const slope = partial(f, values, index, input.standardUncertainty ?? 0);
    return input.budget.map((row) => ({ ...row, effect: row.effect * slope }));
  });
  const result = estimateFrom(value, unit, method, rows);
  derivations.set(result, { inputs, f });
  return result;
}

/** ∂f/∂xᵢ by a central difference of about one standard uncertainty, never below rounding. */
export function partial(f: (...values: number[]) => number, values: readonly number[], index: number, uncertainty: number): number {
  const x = values[index] as number;
  const step = Math.max(uncertainty * 0.1, Math.abs(x) * 1e-6, 1e-12);
  const at = (shift: number): number => f(...values.map((value, i) => (i === index ? value + shift : value)));
  return (at(step) - at(-step)) / (2 * step);
}
