import type { Campaign, RunPlan } from "../../campaign/campaign.ts";
import type { Estimate } from "../../core/estimate.ts";
import { againstRepeats } from "../../fitting/againstRepeats.ts";
import type { AgainstRepeats } from "../../fitting/againstRepeats.ts";
import { withDayRejects } from "../../processing/dayFinding.ts";
import type { RunResult, RunVerdict } from "../../processing/dayResult.ts";
import { judge } from "../../processing/reduceRun.ts";
import { awaited } from "./awaited.ts";
import { presentResults } from "./dayWatch.ts";
import type { DayWatch } from "./dayWatch.ts";
import { keyMeasures } from "./keyMeasures.ts";

/** A verdict, or why there is none yet: `files` are still to come, being written or being read; `others`: other runs must be measured first. */
export type CardState = RunVerdict | "files" | "others";

export interface KeyNumber {
  readonly name: string;
  readonly label: string;
  readonly estimate: Estimate;
  readonly repeats: AgainstRepeats | null;
}

export interface Card {
  readonly plan: RunPlan;
  readonly state: CardState;
  /** why, in plain words; the worst first */
  readonly reasons: readonly string[];
  /** what it still waits for */
  readonly waits: readonly string[];
  /** worth knowing, asks for nothing */
  readonly notes: readonly string[];
  readonly numbers: readonly KeyNumber[];
  /** null = not read */
  readonly readAtMs: number | null;
}

export interface Cards {
  /** runs of which a file is there, in the sheet's order */
  readonly cards: readonly Card[];
  /** runs without a file, in the sheet's order; those excluded by a person are left out */
  readonly toRun: readonly RunPlan[];
}

export function dayCards(day: DayWatch): Cards {
  const { campaign } = day;
  if (campaign === null) return { cards: [], toRun: [] };
  const results = withDayRejects(presentResults(day), day.findings);
  const measured = new Map(results.map((result) => [result.plan.id, result]));
  const toRun: RunPlan[] = [];
  const cards = campaign.runs.flatMap((plan): Card[] => {
    const stage = day.stages.get(plan.id);
    if (stage === undefined || stage.kind === "toRun") {
      if (plan.excluded === null) toRun.push(plan);
      return [];
    }
    const empty = { plan, reasons: [], notes: [], numbers: [], readAtMs: null };
    if (stage.kind === "waiting") return [{ ...empty, state: "files", waits: stage.waits }];
    const result = measured.get(plan.id);
    if (result === undefined) return [{ ...empty, state: "files", waits: ["Its files are complete and are being read"] }];
    if (day.open.has(plan.id)) return [{ ...empty, state: "files", waits: ["Being read again, with what other runs and the sheets now give"], readAtMs: day.outcomes.get(plan.id)?.readAtMs ?? null }];
    const openEnds = stage.openEnds.map((path) => `${path} ends inside its last line; it was read without that line after it had rested`);
    return [readCard(result, plan, campaign, results, measured, openEnds, day.outcomes.get(plan.id)?.readAtMs ?? null)];
  });
  return { cards, toRun };
}

function readCard(result: RunResult, plan: RunPlan, campaign: Campaign, results: readonly RunResult[], measured: ReadonlyMap<string, RunResult>, openEnds: readonly string[], readAtMs: number | null): Card {
  const lacking = awaited(result, plan, campaign, measured);
  // What only other runs can give is no fault of this one.
  const findings = result.findings.filter((found) => !(found.code === "radius-unknown" && lacking.slip !== null) && !(found.code === "drag-unknown" && lacking.torque !== null));
  const { verdict, reasons } = judge(plan, findings, result.issues);
  const waits = [
    ...(lacking.slip === null ? [] : [`Slip: waiting for ${lacking.slip}`]),
    ...(lacking.torque === null ? [] : [`Torque: waiting for ${lacking.torque}`]),
    ...(lacking.sinkage === null ? [] : [`Sinkage: waiting for ${lacking.sinkage}`]),
  ];
  const good = verdict === "go" || verdict === "look";
  const numbers = (plan.kind === null ? [] : keyMeasures[plan.kind]).flatMap((name): KeyNumber[] => {
    const measure = result.measures.find((candidate) => candidate.name === name);
    return measure === undefined ? [] : [{ name, label: measure.label, estimate: measure.estimate, repeats: againstRepeats(result, results, name) }];
  });
  const notes = [...(good ? findings.filter((found) => found.severity === "note").map((found) => found.message) : []), ...openEnds];
  return { plan, state: good && lacking.slip !== null ? "others" : verdict, reasons, waits: verdict === "excluded" || verdict === "unread" ? [] : waits, notes, numbers, readAtMs };
}
