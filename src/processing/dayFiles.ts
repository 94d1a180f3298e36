import type { Campaign } from "../campaign/campaign.ts";
import { logPath } from "../campaign/logPath.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import { groupBy } from "../core/groupBy.ts";
import { filesUnder } from "../importers/filesUnder.ts";
import { sameBytes } from "../importers/sameBytes.ts";
import type { RunResult } from "./dayResult.ts";
import { loggersFor } from "./prepareRun.ts";
import { judge } from "./reduceRun.ts";

/** Runs whose files hold the very same bytes as another run's: run id → the other runs. */
export function copiedFiles(folder: string, campaign: Campaign): Map<string, string[]> {
  const owners = campaign.runs.flatMap((plan) => loggersFor(campaign.rig, plan).map(([, logger]) => ({ path: logPath(logger, plan.sheetId), run: plan.id })));
  const byPath = groupBy(owners, (owner) => owner.path);
  const copies = new Map<string, string[]>();
  for (const group of sameBytes(folder, [...byPath.keys()])) {
    const runs = group.flatMap((path) => (byPath.get(path) ?? []).map((owner) => owner.run));
    for (const run of runs) copies.set(run, runs.filter((other) => other !== run));
  }
  return copies;
}

/** Two runs cannot have the same bytes. Where the file names its run, only the wrong one is rejected. */
export function withCopies(result: RunResult, copies: ReadonlyMap<string, readonly string[]>): RunResult {
  const others = copies.get(result.plan.id);
  if (others === undefined || others.length === 0) return result;
  const rightful = result.sources.length > 0 && !result.findings.some((found) => found.code === "run-label-differs" || found.code === "run-label-missing") && result.steps.some((step) => step.name === "label");
  const copied = finding("same-bytes", rightful ? "note" : "reject", `A log of this run has the very same bytes as one of ${others.join(", ")}: one of them is a copy under a wrong name.${rightful ? " This file names this run." : " Find this run's own file, or repeat the run"}`);
  const findings = [...result.findings, copied];
  return { ...result, findings, ...judge(result.plan, findings, result.issues) };
}

/** Logs that the runs on the sheet should have. */
export function claimedFiles(campaign: Campaign): ReadonlySet<string> {
  return new Set(campaign.runs.flatMap((plan) => loggersFor(campaign.rig, plan).map(([, logger]) => logPath(logger, plan.sheetId))));
}

/** Folders that loggers write to. Beside rig.yaml and the sheets lie other things; only folders of their own are searched. */
export function logFolders(campaign: Campaign): string[] {
  const written = [...Object.values(campaign.rig.loggers), ...Object.values(campaign.rig.footprint ?? {}).filter((described) => described !== undefined)];
  const folders = new Set(written.map((logger) => logger.files.split("/").slice(0, -1).join("/")));
  folders.delete("");
  return [...folders];
}

/** Files beside the logs that no run on the sheet claims. */
export function unclaimedFiles(folder: string, campaign: Campaign): string[] {
  const claimed = claimedFiles(campaign);
  return logFolders(campaign).flatMap((logs) => filesUnder(folder, logs)).filter((file) => !claimed.has(file));
}

export function unclaimedFindings(files: readonly string[]): Finding[] {
  return files.map((file) => finding("log-not-on-sheet", "look", `${file} belongs to no run on the run sheet. Add its run to runs.csv, or move the file away`));
}
