import type { BudgetRow } from "../../src/core/estimate.ts";
import type { Unit } from "../../src/core/units.ts";
import type { Reading } from "../../src/processing/measures/reading.ts";

/** A Reading with the same value in each of three revolutions. */
export function steady<U extends Unit>(value: number, unit: U, rows: readonly BudgetRow[] = []): Reading<U> {
  return { unit, value, perRevolution: [value, value, value], rows };
}

export function cause(name: string, effect: number, sharedBy: string | null = null): BudgetRow {
  return { cause: name, effect, sharedBy, degreesOfFreedom: Infinity };
}
