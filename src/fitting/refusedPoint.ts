import type { FitPoint } from "../core/fit.ts";
import type { Measure } from "../core/measure.ts";
import type { RunResult } from "../processing/dayResult.ts";

/**
 * Why a run may not enter a fit over the day.
 *
 * @param run   a reduced run
 * @returns     what barred it, with its first reason; null when its verdict is go or look
 * @source      common practice
 * @checked     tests/fitting/pullCurves.test.ts
 */
export function barred(run: RunResult): string | null {
  if (run.verdict === "go" || run.verdict === "look") return null;
  const words = { excluded: "excluded by a person", repeat: "rejected", unread: "could not be read" }[run.verdict];
  return run.reasons[0] === undefined ? words : `${words}: ${run.reasons[0]}`;
}

/**
 * One measure of a run by its name.
 *
 * @param run    a reduced run
 * @param name   as in runs.csv
 * @returns      the measure; null when the run has none of that name
 * @source       common practice
 * @checked      tests/fitting/pullCurves.test.ts
 */
export function measureOf(run: RunResult, name: string): Measure | null {
  return run.measures.find((measure) => measure.name === name) ?? null;
}

/**
 * A point that does not count, kept with its reason.
 *
 * @param run      its run
 * @param x        where it would have stood; null or undefined = nowhere, NaN in the point
 * @param y        likewise
 * @param reason   why it does not count
 * @returns        a FitPoint that is not kept
 * @source         common practice
 * @checked        tests/fitting/pullCurves.test.ts
 */
export function refusedPoint(run: RunResult, x: number | null | undefined, y: number | null | undefined, reason: string): FitPoint {
  return { run: run.plan.id, x: x ?? Number.NaN, y: y ?? Number.NaN, yUncertainty: null, kept: false, reason };
}
