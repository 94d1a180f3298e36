import { resolve } from "node:path";
import { reduceDay } from "../day.ts";
import { writeReport } from "../report/writeReport.ts";
import { daySummary, dayExitCode } from "./daySummary.ts";
import { progressLine } from "./progress.ts";
import { withThreads } from "./runPool.ts";

export async function reduceCommand(day: string, options: { readonly out: string; readonly quiet?: boolean }): Promise<number> {
  const progress = progressLine(options.quiet === true);
  const result = await withThreads((hands) => reduceDay(day, { onProgress: progress.step, hands }));
  progress.end();
  writeReport(result, options.out, { madeAt: new Date().toISOString() });
  process.stdout.write(`${daySummary(result)}\nReport: ${resolve(options.out, "report.html")}\n`);
  return dayExitCode(result);
}
