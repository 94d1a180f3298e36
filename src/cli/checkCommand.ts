import { preflightQuestions } from "../campaign/preflight.ts";
import { reduceDay } from "../day.ts";
import { showIssue } from "../core/errors.ts";
import { channelsInWords } from "../report/channelsInWords.ts";
import { cachePlace, mostCacheBytes } from "./cache/cachePlace.ts";
import type { CacheOptions } from "./cache/cachePlace.ts";
import { trimStore } from "./cache/trimStore.ts";
import { daySummary, dayExitCode } from "./daySummary.ts";
import { noteOnce, progressLine } from "./progress.ts";
import { withThreads } from "./runPool.ts";

/** Findings of every run; no results are written. */
export async function checkCommand(day: string, options: CacheOptions & { readonly quiet?: boolean; readonly questions?: boolean }): Promise<number> {
  const progress = progressLine(options.quiet === true);
  const cache = cachePlace(day, options);
  const result = await withThreads(cache, noteOnce(), ({ hands }) => reduceDay(day, { onProgress: progress.step, findingsOnly: true, hands }));
  progress.end(result.runs);
  if (cache !== null) trimStore(cache.folder, mostCacheBytes);
  const lines: string[] = [];
  for (const run of result.runs) {
    if (run.issues.length === 0 && run.findings.length === 0 && run.verdict !== "excluded") continue;
    lines.push(`${run.plan.id}  ${run.verdict}${run.plan.excluded === null ? "" : `: ${run.plan.excluded}`}`);
    lines.push(...run.issues.map((issue) => `    ${showIssue(issue)}`), ...run.findings.map((found) => `    ${found.severity}: ${channelsInWords(found.message)}`));
  }
  lines.push(...result.findings.map((found) => `${found.severity}: ${channelsInWords(found.message)}`));
  if (options.questions === true) lines.push("", "What no recording shows:", ...preflightQuestions.flatMap(({ when, ask, why, record }) => [`  ${when}: ${ask}`, `    ${why}.${record === null ? "" : ` A check can look when you record: ${record}.`}`]));
  process.stdout.write(`${[...lines, "", daySummary(result)].join("\n")}\n`);
  return dayExitCode(result);
}
