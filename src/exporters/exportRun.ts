import { readCampaign } from "../campaign/readCampaign.ts";
import { InputError } from "../core/errors.ts";
import type { Finding } from "../core/finding.ts";
import type { Recording } from "../core/recording.ts";
import { readLog } from "../importers/readLog.ts";
import { loggersFor, prepareRun } from "../processing/prepareRun.ts";
import type { About } from "./recordingColumns.ts";
import { recordingArrow } from "./recordingArrow.ts";
import { recordingCsv } from "./recordingCsv.ts";
import { recordingParquet } from "./recordingParquet.ts";

/** Formats a recording can be written in; the keys are also the endings of the files. */
export const exportFormats = { csv: recordingCsv, arrow: recordingArrow, parquet: recordingParquet } as const;
export type ExportFormat = keyof typeof exportFormats;

export interface ExportedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface ExportedRun {
  /** one per logger */
  readonly files: readonly ExportedFile[];
  readonly findings: readonly Finding[];
}

/**
 * The recordings of one run as they are measured: calibrated, decoupled, zeroed and on one clock, one file per logger.
 *
 * @throws InputError when the day or the run cannot be read
 */
export async function exportRun(folder: string, runId: string, format: ExportFormat): Promise<ExportedRun> {
  const campaign = readCampaign(folder);
  const plan = campaign.runs.find(({ id }) => id === runId);
  if (plan === undefined) throw new InputError([{ code: "no-such-run", at: "runs.csv", message: `expected a run "${runId}", found ${campaign.runs.slice(0, 30).map(({ id }) => id).join(", ") || "no runs"}`, hint: "Give the run's id as it stands on the run sheet" }]);
  const issues = campaign.issues.filter((issue) => issue.run === plan.id);
  if (issues.length > 0) throw new InputError(issues);
  const wheel = campaign.wheels.find(({ id }) => id === plan.wheel) ?? null;
  const { run, findings } = await prepareRun(plan, wheel, campaign.rig, (path, options) => readLog(folder, path, options));
  const files: ExportedFile[] = [];
  for (const [index, [logger]] of loggersFor(campaign.rig, plan).entries()) {
    const about: About = [["rig", campaign.rig.rig], ["run", plan.id], ["logger", logger], ...findings.map((one): [string, string] => ["finding", `${one.severity}, ${one.code}: ${one.message}`])];
    files.push({ name: `${plan.id}_${logger}.${format}`, bytes: await exportFormats[format](run.recordings[index] as Recording, numbered(about)) });
  }
  return { files, findings };
}

/** Keys of a file's metadata stand for one value each. */
function numbered(about: About): About {
  let findings = 0;
  return about.map(([key, value]) => [key === "finding" ? `finding ${++findings}` : key, value]);
}
