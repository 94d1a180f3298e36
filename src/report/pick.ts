import type { Measure } from "../core/measure.ts";
import type { RunKind } from "../campaign/rigSchema.ts";
import type { DayResult, RunResult } from "../processing/dayResult.ts";

/** The run's measure of that name; undefined when it has none. */
export function measureOf(run: RunResult, name: string): Measure | undefined {
  return run.measures.find((measure) => measure.name === name);
}

/** Runs of one kind whose numbers are to be used. */
export function usableRuns(day: DayResult, kind: RunKind): RunResult[] {
  return day.runs.filter((run) => run.plan.kind === kind && (run.verdict === "go" || run.verdict === "look"));
}

/** Distinct values in order of first appearance. */
export function distinct<T>(values: readonly (T | null | undefined)[]): T[] {
  return [...new Set(values.filter((value): value is T => value !== null && value !== undefined))];
}

/** Wheels in the order of the wheel sheet; any that are not on it come last. */
export function wheelOrder(day: DayResult, wheels: readonly (string | null)[]): string[] {
  const sheet = day.campaign.wheels.map((wheel) => wheel.id);
  const place = (wheel: string): number => (sheet.includes(wheel) ? sheet.indexOf(wheel) : sheet.length);
  return distinct(wheels).sort((a, b) => place(a) - place(b));
}

/** Distinct numbers, smallest first. */
export function levels(values: readonly (number | null | undefined)[]): number[] {
  return distinct(values).filter(Number.isFinite).sort((a, b) => a - b);
}

/** At most `count` items, evenly spread, first and last among them: for drawing only. */
export function spread<T>(items: readonly T[], count: number): readonly T[] {
  if (items.length <= count) return items;
  return Array.from({ length: count }, (_, index) => items[Math.round((index * (items.length - 1)) / (count - 1))] as T);
}

/** Lowest and highest of many numbers, with a little room; a usable pair even for one number or none. */
export function extent(values: readonly number[]): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (const value of values) {
    if (!Number.isFinite(value)) continue;
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  if (low > high) return [0, 1];
  const room = (high - low) * 0.05 || Math.abs(high) * 0.05 || 1;
  return [low - room, high + room];
}
