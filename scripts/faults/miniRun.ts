import type { PlannedRun } from "../demo/dayPlan.ts";
import { makeMiniDay } from "./miniDay.ts";
import type { MiniDay } from "./miniDay.ts";

/** Makes one run of the day anew with some of its plan changed; its row of the run sheet stays as it is. */
export function remakeRun(day: MiniDay, id: string, part: Partial<PlannedRun>): void {
  const run = day.plan.find((candidate) => candidate.id === id);
  if (run === undefined) throw new Error(`the day has no run ${id}`);
  const made = makeMiniDay([{ ...run, ...part }], day.seed);
  for (const [path, content] of made.files) if (path.startsWith(`logs/${id}_`)) day.files.set(path, content);
}
