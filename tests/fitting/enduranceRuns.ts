import type { RunPlan } from "../../src/campaign/campaign.ts";
import type { Estimate } from "../../src/core/estimate.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { runResult } from "../helpers/runResult.ts";

/** An endurance run that gave these measures and counted these cycles: pairs of range [N] and number. */
export function enduranceRun(id: string, measures: Readonly<Record<string, Estimate>>, cycles: readonly (readonly [number, number])[] = []): RunResult {
  const curve = { name: "loadCycles", x: { label: "", unit: "N" as const, values: cycles.map(([range]) => range) }, y: { label: "", unit: "1" as const, values: cycles.map(([, count]) => count) }, yUncertainty: null, method: "" };
  const plan: RunPlan = { id, sheetId: id, kind: "endurance", wheel: "W1", bed: null, setLoadN: null, setSlip: null, setSpeedMps: null, repeat: null, pass: null, block: null, dropHeightM: null, plate: null, shearAreaM2: null, normalStressPa: null, contactAngleRad: null, obstacle: null, footprint: null, remark: "", excluded: null, line: 2, more: {} };
  const made = Object.entries(measures).map(([name, estimate]) => ({ name, label: name, estimate, segment: null }));
  return runResult(plan, {}, { measures: made, curves: cycles.length === 0 ? [] : [curve] });
}
