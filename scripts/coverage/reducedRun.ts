import type { RunPlan } from "../../src/campaign/campaign.ts";
import { estimateFrom } from "../../src/core/estimate.ts";
import type { BudgetRow, Estimate } from "../../src/core/estimate.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import type { Dice } from "../demo/dice.ts";

/** A traction run as its reduction leaves it. */
export function reducedRun(place: Pick<RunPlan, "id" | "wheel" | "setLoadN" | "setSlip" | "setSpeedMps" | "bed">, measures: Readonly<Record<string, Estimate>>): RunResult {
  const plan: RunPlan = {
    ...place, sheetId: place.id, kind: "traction", repeat: null, pass: null, block: null, dropHeightM: null, plate: null, shearAreaM2: null,
    normalStressPa: null, contactAngleRad: null, obstacle: null, footprint: null, remark: "", excluded: null, line: 2, more: {},
  };
  return {
    plan, verdict: "go", reasons: [], curves: [], fits: [], findings: [], issues: [], segments: [], traces: [], sampling: [], alignments: [], windowChoices: [], picture: null, sources: [], steps: [],
    measures: Object.entries(measures).map(([name, estimate]) => ({ name, label: name, estimate, segment: null })),
  };
}

/** A cause that all runs of the day share, as a budget row of one of its results. */
export const shared = (cause: string, effect: number): BudgetRow => ({ cause, effect, sharedBy: cause, degreesOfFreedom: Infinity });

/** A run's own scatter, as it is seen over 6 revolutions more than needed: not known better than that. */
export function seen(random: Dice, run: string, effect: number): BudgetRow {
  const revolutions = 6;
  const squares = Array.from({ length: revolutions }, () => random.normal() ** 2).reduce((sum, square) => sum + square, 0);
  return { cause: `scatter of the revolutions, ${run}`, effect: effect * Math.sqrt(squares / revolutions), sharedBy: null, degreesOfFreedom: revolutions };
}

/** A true value as it comes out when its shared causes stand where the day drew them, in standard uncertainties, and its own error is added. */
export function read(truth: number, own: number, rows: readonly BudgetRow[], drawn: ReadonlyMap<string, number>): Estimate<"1"> {
  return estimateFrom(rows.reduce((sum, row) => sum + row.effect * (drawn.get(row.cause) ?? 0), truth + own), "1", "made", rows);
}
