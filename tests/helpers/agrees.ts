import { expect } from "vitest";

/** What an expected number rests on. */
export interface Reference {
  readonly expected: number;
  /** absolute tolerance; give this or `relative` */
  readonly within?: number;
  readonly relative?: number;
  /** where the expected number comes from: publication, standard, library; "from memory" where the page was not seen */
  readonly source: string;
}

/** Holds an actual number against an outside reference. Refuses a reference without a source or without a tolerance. */
export function agrees(actual: number, reference: Reference): void {
  const { expected, within, relative, source } = reference;
  if (source.trim().length < 8) throw new Error("a reference value needs its source");
  if ((within === undefined) === (relative === undefined)) throw new Error("give exactly one tolerance: within or relative");
  const tolerance = within ?? Math.abs(expected) * (relative as number);
  expect(Number.isFinite(actual), `expected ${expected} (${source}), found ${actual}`).toBe(true);
  expect(Math.abs(actual - expected), `expected ${expected} ± ${tolerance} (${source}), found ${actual}`).toBeLessThanOrEqual(tolerance);
}
