import type { RunPlan, WheelRecord } from "../campaign/campaign.ts";
import { logPath } from "../campaign/logPath.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import { InputError } from "../core/errors.ts";
import type { Issue } from "../core/errors.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import { hasChannel } from "../core/recording.ts";
import type { Recording } from "../core/recording.ts";
import type { Segment } from "../core/segment.ts";
import type { RawTable, ReadOptions } from "../importers/contract.ts";
import { align } from "./conditioning/align.ts";
import { calibrate } from "./conditioning/calibrate.ts";
import { check } from "./conditioning/check.ts";
import { decouple } from "./conditioning/decouple.ts";
import { sampling } from "./conditioning/sampling.ts";
import { maskSpikes } from "./conditioning/maskSpikes.ts";
import { zero } from "./conditioning/zero.ts";
import type { ClockAlignment } from "./dayResult.ts";
import type { LogSampling } from "./logSampling.ts";
import { footprintLogger } from "./footprintGrid.ts";
import type { PreparedRun } from "./preparedRun.ts";

/** Reads one log of the day. @throws InputError */
export type ReadTable = (relativePath: string, options: ReadOptions) => RawTable | Promise<RawTable>;

export interface Prepared {
  readonly run: PreparedRun;
  readonly findings: readonly Finding[];
  readonly segments: readonly Segment[];
  readonly sampling: readonly LogSampling[];
  readonly alignments: readonly ClockAlignment[];
}

/** Loggers that record runs of this kind, by name; for a footprint its pad or camera. */
export function loggersFor(rig: Rig, plan: RunPlan): [string, Rig["loggers"][string]][] {
  if (plan.kind === "footprint") {
    const logger = footprintLogger(rig, plan);
    return logger === null ? [] : [[plan.footprint?.from ?? "footprint", logger]];
  }
  return Object.entries(rig.loggers).filter(([, logger]) => plan.kind !== null && logger.kinds.includes(plan.kind));
}

/**
 * One run from its files to one clock: read → calibrate → decouple → check → zero → align.
 *
 * @throws InputError holding the issues of all its logs
 */
export async function prepareRun(plan: RunPlan, wheel: WheelRecord | null, rig: Rig, read: ReadTable): Promise<Prepared> {
  const issues: Issue[] = [];
  const findings: Finding[] = [];
  const segments: Segment[] = [];
  const sampled: LogSampling[] = [];
  const named: { logger: string; recording: Recording }[] = [];
  for (const [name, logger] of loggersFor(rig, plan)) {
    try {
      const table = await read(logPath(logger, plan.sheetId), { ...logger, columns: Object.values(logger.channels).map((channel) => channel.column) });
      const label = labelFinding(table, logger.runLabel, plan.sheetId);
      if (label !== null) findings.push(label);
      const calibrated = calibrate(table, logger, rig);
      sampled.push(sampling(table, name, logger));
      findings.push(...calibrated.findings, ...check(calibrated.recording, name, rig));
      const decoupled = rig.sixAxis?.logger === name && hasChannel(calibrated.recording, "bridge1") ? decouple(calibrated.recording, rig.sixAxis) : { recording: calibrated.recording, findings: [] };
      const rolls = plan.kind === "traction" || plan.kind === "hardFloor" || plan.kind === "freeSpin" || plan.kind === "sweep";
      const masked = rolls ? maskSpikes(decoupled.recording, rig) : { recording: decoupled.recording, findings: [] };
      const zeroed = zero(masked.recording, rig, wheel);
      findings.push(...decoupled.findings, ...masked.findings, ...zeroed.findings);
      segments.push(...zeroed.segments);
      const labelled = logger.runLabel !== undefined && label === null ? [{ name: "label", version: "1", parameters: { run: plan.id } }] : [];
      named.push({ logger: name, recording: { ...zeroed.recording, history: [...labelled, ...zeroed.recording.history] } });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      issues.push(...error.issues);
    }
  }
  if (issues.length > 0) throw new InputError(issues);
  if (named.length === 0) throw new InputError([{ code: "no-logger", at: `run ${plan.id}`, message: `expected a logger for runs of kind "${plan.kind}", found none`, hint: "Add the kind to a logger's `kinds` in rig.yaml" }]);
  const aligned = align(named, rig);
  return { run: { plan, wheel, rig, recordings: aligned.recordings }, findings: [...findings, ...aligned.findings], segments, sampling: sampled, alignments: aligned.alignments };
}

/** The run's id inside the file, where the rig description says it stands there. */
export function labelFinding(table: Pick<RawTable, "metadata" | "source">, label: string | undefined, runId: string): Finding | null {
  if (label === undefined) return null;
  const written = table.metadata.find(([key]) => key.trim().replace(/:$/, "") === label)?.[1]?.trim();
  if (written === runId) return null;
  if (written === undefined || written === "") return finding("run-label-missing", "look", `${table.source.file} does not carry the line "${label}" with the run's id, so it cannot be told whether it is this run's file`);
  return finding("run-label-differs", "reject", `${table.source.file} says it belongs to run ${written}, not to ${runId}. Find this run's own file, or repeat the run`);
}
