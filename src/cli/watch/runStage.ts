import type { RunPlan } from "../../campaign/campaign.ts";
import { logPath } from "../../campaign/logPath.ts";
import type { Rig } from "../../campaign/rigSchema.ts";
import { loggersFor } from "../../processing/prepareRun.ts";
import { fileStage, fingerprint } from "./settle.ts";
import type { FileStage, FileWatch, SettleRule } from "./settle.ts";

export interface WantedFile {
  readonly logger: string;
  readonly path: string;
}

/** The files that the loggers write for a run. */
export function wantedFiles(rig: Rig, plan: RunPlan): WantedFile[] {
  return loggersFor(rig, plan).map(([logger, { files }]) => ({ logger, path: logPath({ files }, plan.sheetId) }));
}

/** Where a run stands: to run (no file yet), waiting for its files, or ready: every logger's file is there and complete. */
export type RunStage =
  | { readonly kind: "toRun" }
  | { readonly kind: "waiting"; readonly waits: readonly string[] }
  | { readonly kind: "ready"; readonly filesKey: string; readonly openEnds: readonly string[] };

export function runStage(wanted: readonly WantedFile[], files: ReadonlyMap<string, FileWatch>, nowMs: number, rule: SettleRule, clockText: (ms: number) => string): RunStage {
  const stages = wanted.map((file) => ({ ...file, watch: files.get(file.path), stage: fileStage(files.get(file.path), nowMs, rule) }));
  if (stages.every(({ stage }) => stage.kind === "absent")) return { kind: "toRun" };
  if (stages.some(({ stage }) => stage.kind !== "complete")) {
    const complete = stages.flatMap(({ path, stage }) => (stage.kind === "complete" ? [`${path}, complete since ${clockText(stage.sinceMs)}`] : []));
    return { kind: "waiting", waits: stages.flatMap(({ logger, path, stage }) => waitText(logger, path, stage, complete, clockText)) };
  }
  return {
    kind: "ready",
    filesKey: stages.map(({ path, watch }) => `${path} ${watch === undefined ? "" : fingerprint(watch)}`).join("\n"),
    openEnds: stages.flatMap(({ path, stage }) => (stage.kind === "complete" && stage.openEnd ? [path] : [])),
  };
}

function waitText(logger: string, path: string, stage: FileStage, complete: readonly string[], clockText: (ms: number) => string): string[] {
  if (stage.kind === "complete") return [];
  if (stage.kind === "growing") return [`${path} is being written: ${sizeText(stage.size)} so far`];
  if (stage.kind === "empty") return [`${path} is still empty`];
  if (stage.kind === "open") return [`The last line of ${path} has no end yet. If it rests until ${clockText(stage.readAtMs)}, it is read without that line`];
  return [`Waiting for ${path} of the logger “${logger}”${complete.length === 0 ? "" : `; ${complete.join("; ")}`}`];
}

function sizeText(bytes: number): string {
  return bytes < 1e6 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}
