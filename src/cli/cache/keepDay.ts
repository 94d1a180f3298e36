import { serialize } from "node:v8";
import { filesUnder } from "../../importers/filesUnder.ts";
import { claimedFiles, logFolders } from "../../processing/dayFiles.ts";
import type { DayResult } from "../../processing/dayResult.ts";
import { dayKey } from "./findDay.ts";
import type { DayEntry, DayOutput } from "./findDay.ts";
import { sha256Of } from "./sha256Of.ts";
import type { Store } from "./store.ts";

/** Keeps a day's output, unless a log stands there that was not read to its end: what it holds cannot be vouched for. */
export function keepDay(day: string, { campaign, runs }: DayResult, output: DayOutput, store: Store, program: string): void {
  const read = new Map(runs.flatMap((run) => run.sources.map(({ file, sha256 }) => [file, sha256])));
  const logs = [...claimedFiles(campaign)].map((path) => [path, read.get(path) ?? null] as const);
  if (logs.some(([path, sha256]) => sha256 === null && sha256Of(day, path) !== null)) return;
  const folders = logFolders(campaign).map((folder) => [folder, filesUnder(day, folder)] as const);
  const sheets = new Map(campaign.files.map(({ file, sha256 }) => [file, sha256]));
  store.keep("day", dayKey(day, program, (file) => sheets.get(file) ?? null), serialize({ logs, folders, output } satisfies DayEntry));
}
