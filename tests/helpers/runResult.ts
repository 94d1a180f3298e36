import type { RunPlan } from "../../src/campaign/campaign.ts";
import type { BudgetRow } from "../../src/core/estimate.ts";
import type { Fit } from "../../src/core/fit.ts";
import type { Unit } from "../../src/core/units.ts";
import { estimateFrom } from "../../src/core/estimate.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";

/** A budget row of this run alone. */
export function ownRow(effect: number, cause = "scatter of the revolutions"): BudgetRow {
  return { cause, effect, sharedBy: null, degreesOfFreedom: 10 };
}

/** A budget row that other runs share. */
export function sharedRow(effect: number, cause: string): BudgetRow {
  return { cause, effect, sharedBy: cause, degreesOfFreedom: Infinity };
}

/** A reduced run with the given measures. */
export function runResult(runPlan: RunPlan, measures: Readonly<Record<string, { readonly value: number; readonly unit: Unit; readonly rows: readonly BudgetRow[] }>>, rest: Partial<RunResult> = {}): RunResult {
  return {
    plan: runPlan, verdict: "go", reasons: [], curves: [], fits: [] as Fit[], findings: [], issues: [], segments: [], traces: [], sampling: [], alignments: [], windowChoices: [], picture: null, sources: [], steps: [],
    measures: Object.entries(measures).map(([name, { value, unit, rows }]) => ({ name, label: name, estimate: estimateFrom(value, unit, "made for the test", rows), segment: null })),
    ...rest,
  };
}
