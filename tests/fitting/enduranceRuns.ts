import type { RunPlan } from "../../src/campaign/campaign.ts";
import type { Estimate } from "../../src/core/estimate.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { runResult } from "../helpers/runResult.ts";

/** An endurance run that gave these measures and counted these cycles: pairs of range [N] and number. */
export function enduranceRun(id: string, measures: Readonly<Record<string, Estimate>>, cycles: readonly (readonly [number, number])[] = []): RunResult {
  const curve = { name: "loadCycles", x: { label: "", unit: "N" as const, values: cycles.map(([range]) => range) }, y: { label: "", unit: "1" as const, values: cycles.map(([, count]) => count) }, yUncertainty: null, method: "" };
  const plan = { id, sheetId: id, kind: "endurance", wheel: "W1" } as unknown as RunPlan;
  const made = Object.entries(measures).map(([name, estimate]) => ({ name, label: name, estimate, segment: null }));
  return runResult(plan, {}, { measures: made, curves: cycles.length === 0 ? [] : [curve] });
}
