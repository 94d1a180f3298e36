import type { Campaign, RunPlan } from "../../campaign/campaign.ts";
import type { Issue } from "../../core/errors.ts";
import { groupBy } from "../../core/groupBy.ts";
import { referenceKinds } from "../../day.ts";
import { withCopies } from "../../processing/dayFiles.ts";
import type { DayFinding } from "../../processing/dayFinding.ts";
import type { RunResult } from "../../processing/dayResult.ts";
import { restsOn } from "../../processing/references.ts";
import type { References } from "../../processing/references.ts";
import type { RunStage } from "./runStage.ts";

/** A run as it was read: from which files, rows and references, and when. */
export interface Outcome {
  readonly key: string;
  readonly filesKey: string;
  readonly result: RunResult;
  /** when these files of the run were first read, on the watcher's clock */
  readonly readAtMs: number;
}

/** All that is known of the day at one moment. */
export interface DayWatch {
  /** the last good reading of rig.yaml and the sheets; null = there was none yet */
  readonly campaign: Campaign | null;
  readonly campaignAtMs: number | null;
  /** why the present sheets cannot be used; empty = they are in use */
  readonly mistakes: readonly Issue[];
  readonly mistakesAtMs: number | null;
  readonly stages: ReadonlyMap<string, RunStage>;
  readonly outcomes: ReadonlyMap<string, Outcome>;
  /** runs to be read, or read again because a row or a reference changed: what was read of them no longer holds */
  readonly open: ReadonlySet<string>;
  /** what only the runs read so far, side by side, show */
  readonly findings: readonly DayFinding[];
  readonly unclaimed: readonly string[];
}

/** Results whose files are still the ones they were read from, in the sheet's order. A log under two names rejects the wrong one. */
export function presentResults(day: DayWatch): RunResult[] {
  const results = (day.campaign?.runs ?? []).flatMap((plan) => {
    const outcome = day.outcomes.get(plan.id);
    const stage = day.stages.get(plan.id);
    return outcome !== undefined && stage?.kind === "ready" && stage.filesKey === outcome.filesKey ? [outcome.result] : [];
  });
  const copies = copiesAmong(results);
  return results.map((result) => withCopies(result, copies));
}

/** Runs that were read from the very same bytes: run → the others. */
function copiesAmong(results: readonly RunResult[]): Map<string, string[]> {
  const owners = results.flatMap((result) => result.sources.map(({ sha256 }) => ({ sha256, run: result.plan.id })));
  const copies = new Map<string, string[]>();
  for (const group of groupBy(owners, ({ sha256 }) => sha256).values()) {
    const runs = [...new Set(group.map(({ run }) => run))];
    if (runs.length < 2) continue;
    for (const run of runs) copies.set(run, [...new Set([...(copies.get(run) ?? []), ...runs.filter((other) => other !== run)])]);
  }
  return copies;
}

export interface Job {
  readonly plan: RunPlan;
  readonly key: string;
  readonly filesKey: string;
}

/** Runs to read, in this order: new files first, those that others rest on before the rest; then runs whose sheet row or references changed. */
export function openJobs(day: DayWatch, references: References): Job[] {
  const { campaign } = day;
  if (campaign === null) return [];
  const open = campaign.runs.flatMap((plan): { job: Job; rank: number }[] => {
    const stage = day.stages.get(plan.id);
    if (stage?.kind !== "ready") return [];
    const key = jobKey(campaign, plan, references, stage.filesKey);
    const known = day.outcomes.get(plan.id);
    if (known?.key === key) return [];
    const again = known?.filesKey === stage.filesKey ? 2 : 0;
    return [{ job: { plan, key, filesKey: stage.filesKey }, rank: again + (referenceKinds.includes(plan.kind) ? 0 : 1) }];
  });
  // A stable sort: runs of one rank stay in the sheet's order.
  return open.sort((a, b) => a.rank - b.rank).map(({ job }) => job);
}

/** Everything that decides a run's result; while it stays the same the run need not be read again. */
function jobKey(campaign: Campaign, plan: RunPlan, references: References, filesKey: string): string {
  const { line: _line, remark: _remark, more: _more, block: _block, ...row } = plan;
  const rig = campaign.files.find(({ file }) => file === "rig.yaml")?.sha256;
  const wheel = campaign.wheels.find((candidate) => candidate.id === plan.wheel);
  const issues = campaign.issues.filter((issue) => issue.run === plan.id);
  return JSON.stringify([filesKey, rig, row, wheel === undefined ? null : { ...wheel, line: 0 }, issues, restsOn(plan, references)]);
}
