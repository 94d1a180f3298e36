import type { Campaign, RunPlan } from "../../campaign/campaign.ts";
import type { RunKind } from "../../campaign/rigSchema.ts";
import type { RunResult } from "../../processing/dayResult.ts";
import { plainNumber } from "../../report/words.ts";

/** What a measured traction run still lacks from other runs of the day that are on the sheet; null = it lacks nothing of the kind. */
export interface Awaited {
  /** without it there is no slip, and so no verdict */
  readonly slip: string | null;
  readonly torque: string | null;
  readonly sinkage: string | null;
}

const kindNames: Partial<Record<RunKind, string>> = { hardFloor: "hard-floor", freeSpin: "free-spin", loadDeflection: "load–deflection" };

/** @param measured the runs read so far, by id */
export function awaited(result: RunResult, plan: RunPlan, campaign: Campaign, measured: ReadonlyMap<string, RunResult>): Awaited {
  if (plan.kind !== "traction" || plan.wheel === null) return { slip: null, torque: null, sinkage: null };
  const lacks = (name: string): boolean => result.measures.some((measure) => measure.name === name && measure.estimate.standardUncertainty === null);
  const toCome = (kind: RunKind): string | null => nearestToCome(kind, plan, campaign, measured);
  const { policy } = campaign.rig.slipRadius;
  const flexible = campaign.wheels.find((wheel) => wheel.id === plan.wheel)?.flexible === true;
  const hasHubDrop = result.measures.some((measure) => measure.name === "hubDrop");
  return {
    slip: lacks("slipRadius") ? (policy === "effective" ? toCome("hardFloor") : policy === "loaded" ? toCome("loadDeflection") : null) : null,
    torque: result.findings.some((found) => found.code === "drag-unknown") ? toCome("freeSpin") : null,
    sinkage: flexible && hasHubDrop && lacks("sinkageRunning") ? toCome("loadDeflection") : null,
  };
}

/** The reference runs of this wheel that are not usable yet and lie nearest in load, or all where no load is set; null = none. */
function nearestToCome(kind: RunKind, plan: RunPlan, campaign: Campaign, measured: ReadonlyMap<string, RunResult>): string | null {
  const usable = (run: RunPlan): boolean => ["go", "look"].includes(measured.get(run.id)?.verdict ?? "");
  const candidates = campaign.runs.filter((run) => run.kind === kind && run.wheel === plan.wheel && run.excluded === null && !usable(run));
  const distance = (run: RunPlan): number => (run.setLoadN === null || plan.setLoadN === null ? 0 : Math.abs(run.setLoadN - plan.setLoadN));
  const least = Math.min(...candidates.map(distance));
  const nearest = candidates.filter((run) => distance(run) === least);
  const [first] = nearest;
  if (first === undefined) return null;
  const load = kind === "hardFloor" && first.setLoadN !== null ? ` at ${plainNumber(first.setLoadN)} N` : "";
  const names = nearest.map((run) => (measured.get(run.id)?.verdict === "repeat" ? `${run.id}, to be repeated` : measured.get(run.id)?.verdict === "unread" ? `${run.id}, not read` : run.id));
  return `the ${kindNames[kind] ?? kind} run${nearest.length === 1 ? "" : "s"} of ${plan.wheel}${load} (${names.join(", ")})`;
}
