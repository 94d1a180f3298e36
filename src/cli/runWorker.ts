import type { RunPlan, WheelRecord } from "../campaign/campaign.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import { readLog } from "../importers/readLog.ts";
import type { RunResult } from "../processing/dayResult.ts";
import { reduceRun } from "../processing/reduceRun.ts";
import type { References } from "../processing/references.ts";

/** What a thread needs to reduce one run. */
export interface RunTask {
  readonly folder: string;
  readonly plan: RunPlan;
  readonly wheel: WheelRecord | null;
  readonly rig: Rig;
  readonly references: References;
}

/** Body of a thread: one run from its files to its measures. */
export default function reduceTask({ folder, plan, wheel, rig, references }: RunTask): Promise<RunResult> {
  return reduceRun(plan, wheel, rig, references, (path, options) => readLog(folder, path, options));
}
