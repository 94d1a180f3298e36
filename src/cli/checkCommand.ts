import { preflightQuestions } from "../campaign/preflight.ts";
import { reduceDay } from "../day.ts";
import { showIssue } from "../core/errors.ts";
import { daySummary, dayExitCode } from "./daySummary.ts";
import { progressLine } from "./progress.ts";
import { withThreads } from "./runPool.ts";

/** Findings of every run, worst first; nothing is written. */
export async function checkCommand(day: string, options: { readonly quiet?: boolean; readonly questions?: boolean }): Promise<number> {
  const progress = progressLine(options.quiet === true);
  const result = await withThreads((hands) => reduceDay(day, { onProgress: progress.step, findingsOnly: true, hands }));
  progress.end();
  const lines: string[] = [];
  for (const run of result.runs) {
    if (run.issues.length === 0 && run.findings.length === 0 && run.verdict !== "excluded") continue;
    lines.push(`${run.plan.id}  ${run.verdict}${run.plan.excluded === null ? "" : `: ${run.plan.excluded}`}`);
    lines.push(...run.issues.map((issue) => `    ${showIssue(issue)}`), ...run.findings.map((found) => `    ${found.severity}: ${found.message}`));
  }
  lines.push(...result.findings.map((found) => `${found.severity}: ${found.message}`));
  if (options.questions === true) lines.push("", "What no recording shows:", ...preflightQuestions.flatMap(({ when, ask, why, record }) => [`  ${when}: ${ask}`, `    ${why}.${record === null ? "" : ` A check can look when you record: ${record}.`}`]));
  process.stdout.write(`${[...lines, "", daySummary(result)].join("\n")}\n`);
  return dayExitCode(result);
}
