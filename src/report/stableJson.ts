import type { Estimate } from "../core/estimate.ts";

/** A value that JSON can hold. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** Text of a JSON value: two-space indent, rows of numbers and records that hold no other on one line each, a newline at the end; the same value gives the same bytes. */
export function stableJson(value: Json): string {
  // A line break inside a string is written as \\n, so a real one is layout; nothing that holds a further bracket or brace is touched.
  const onOneLine = (inside: string): string => inside.replace(/\s*\n\s*/g, " ");
  const text = JSON.stringify(value, null, 2)
    .replace(/\[\n\s+([^[\]{}"]*?)\n\s+\]/g, (_, row: string) => `[${onOneLine(row)}]`)
    .replace(/\{\n\s+([^[\]{}]*?)\n\s+\}/g, (_, record: string) => `{ ${onOneLine(record)} }`);
  return `${text}\n`;
}

/** Anything plain as Json with its keys in alphabetical order: for records whose keys people or schemas chose. */
export function sortedJson(value: unknown): Json {
  if (value === null || value === undefined) return null;
  if (typeof value === "number") return finite(value);
  if (typeof value === "string" || typeof value === "boolean") return value;
  if (Array.isArray(value)) return value.map(sortedJson);
  const entries = Object.entries(value as object).filter(([, item]) => item !== undefined);
  entries.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return Object.fromEntries(entries.map(([key, item]) => [key, sortedJson(item)]));
}

/** The number, or null where JSON has no way to write it. */
export function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

/** An estimate with its budget, keys in a fixed order. Degrees of freedom: null = unlimited (stated by a certificate). */
export function estimateJson(estimate: Estimate): Json {
  return {
    value: finite(estimate.value),
    standardUncertainty: estimate.standardUncertainty === null ? null : finite(estimate.standardUncertainty),
    unit: estimate.unit,
    degreesOfFreedom: finite(estimate.degreesOfFreedom),
    method: estimate.method,
    budget: estimate.budget.map((row) => ({ cause: row.cause, effect: finite(row.effect), sharedBy: row.sharedBy, degreesOfFreedom: finite(row.degreesOfFreedom) })),
  };
}
