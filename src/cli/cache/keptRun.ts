import { deserialize, serialize } from "node:v8";
import type { RunPlan, WheelRecord } from "../../campaign/campaign.ts";
import { logPath } from "../../campaign/logPath.ts";
import type { Rig } from "../../campaign/rigSchema.ts";
import { logInPieces } from "../../importers/logInPieces.ts";
import { readLog } from "../../importers/readLog.ts";
import type { RunResult } from "../../processing/dayResult.ts";
import type { ReadPieces } from "../../processing/endurance/enduranceLog.ts";
import { loggersFor } from "../../processing/prepareRun.ts";
import { reduceRun } from "../../processing/reduceRun.ts";
import type { References } from "../../processing/references.ts";
import { keyOf } from "./keyOf.ts";
import { keptTable } from "./keptTable.ts";
import type { ProgramKeys } from "./programKey.ts";
import { sha256Of } from "./sha256Of.ts";
import type { Store } from "./store.ts";

/** All that decides a run's result, beside its logs' bytes and the program. */
export interface RunTask {
  readonly folder: string;
  readonly plan: RunPlan;
  readonly wheel: WheelRecord | null;
  readonly rig: Rig;
  readonly references: References;
}

/** One run from its files to its measures, from the store where the very same was asked before. */
export async function keptRun({ folder, plan, wheel, rig, references }: RunTask, store: Store, program: ProgramKeys): Promise<RunResult> {
  const logs = new Map(loggersFor(rig, plan).map(([, logger]) => logPath(logger, plan.sheetId)).map((path) => [path, sha256Of(folder, path)]));
  // The line a row stands on changes with every row above it, and decides nothing.
  const key = keyOf(program.whole, { ...plan, line: 0 }, wheel, rig, references, [...logs]);
  const kept = store.find("run", key);
  if (kept !== null) return { ...(deserialize(kept) as RunResult), plan };
  const result = await reduceRun(plan, wheel, rig, references, (path, options) => keptTable(folder, path, logs.get(path) ?? null, options, store, program.readers), inPieces(folder));
  // A run may be unread for want of time or memory, which another time may have; a file may have changed meanwhile.
  if (result.issues.length === 0 && result.sources.every(({ file, sha256 }) => logs.get(file) === sha256)) store.keep("run", key, serialize(result));
  return result;
}

/** A log that is read in pieces is larger than what is kept of logs. */
function inPieces(folder: string): ReadPieces {
  return (path, options, onPiece) => logInPieces(folder, path, options, onPiece);
}

/** The same from the files alone. */
export function freshRun({ folder, plan, wheel, rig, references }: RunTask): Promise<RunResult> {
  return reduceRun(plan, wheel, rig, references, (path, options) => readLog(folder, path, options), inPieces(folder));
}
