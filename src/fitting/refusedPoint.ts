import type { FitPoint } from "../core/fit.ts";
import type { Measure } from "../core/measure.ts";
import type { RunResult } from "../processing/dayResult.ts";

/** Why a run may not enter a fit; null = it may. */
export function barred(run: RunResult): string | null {
  if (run.verdict === "go" || run.verdict === "look") return null;
  const words = { excluded: "excluded by a person", repeat: "rejected", unread: "could not be read" }[run.verdict];
  return run.reasons[0] === undefined ? words : `${words}: ${run.reasons[0]}`;
}

export function measureOf(run: RunResult, name: string): Measure | null {
  return run.measures.find((measure) => measure.name === name) ?? null;
}

/** A point that does not count, at the place it would have had; NaN where it has none. */
export function refusedPoint(run: RunResult, x: number | null | undefined, y: number | null | undefined, reason: string): FitPoint {
  return { run: run.plan.id, x: x ?? Number.NaN, y: y ?? Number.NaN, yUncertainty: null, kept: false, reason };
}
