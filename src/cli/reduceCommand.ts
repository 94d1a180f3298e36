import { resolve } from "node:path";
import { reduceDay } from "../day.ts";
import { writeReport } from "../report/writeReport.ts";
import { daySummary, dayExitCode } from "./daySummary.ts";
import { progressLine } from "./progress.ts";

export function reduceCommand(day: string, options: { readonly out: string; readonly quiet?: boolean }): number {
  const progress = progressLine(options.quiet === true);
  const result = reduceDay(day, { onProgress: progress.step });
  progress.end();
  writeReport(result, options.out, { madeAt: new Date().toISOString() });
  process.stdout.write(`${daySummary(result)}\nReport: ${resolve(options.out, "report.html")}\n`);
  return dayExitCode(result);
}
