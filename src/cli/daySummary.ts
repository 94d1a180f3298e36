import { showIssue } from "../core/errors.ts";
import type { DayResult, RunVerdict } from "../processing/dayResult.ts";
import { rankedQuestions } from "../report/rankingWords.ts";
import { exitCodes } from "./exitCodes.ts";

const words: readonly (readonly [RunVerdict, string])[] = [
  ["go", "go"],
  ["look", "look"],
  ["repeat", "repeat while the bed is there"],
  ["unread", "not read: the input is wrong"],
  ["excluded", "excluded by hand"],
];

/** The day in a few lines: counts per verdict, and which runs to repeat. */
export function daySummary(day: DayResult): string {
  const lines = words.flatMap(([verdict, word]) => {
    const runs = day.runs.filter((run) => run.verdict === verdict);
    if (runs.length === 0) return [];
    const named = verdict === "go" || verdict === "look" ? "" : `  ${runs.map((run) => run.plan.id).join(", ")}`;
    return [`${String(runs.length).padStart(5)}  ${word}${named}`];
  });
  const general = day.campaign.issues.filter((issue) => issue.run === null).map(showIssue);
  const answers = rankedQuestions(day).map(({ label, answer }) => `${label}: ${answer}`);
  return [`${day.runs.length} runs`, ...lines, ...general, ...answers].join("\n");
}

/** 1 when a run was rejected or could not be read; exclusion by hand is no fault. */
export function dayExitCode(day: DayResult): number {
  const faulty = day.campaign.issues.length > 0 || day.runs.some((run) => run.verdict === "repeat" || run.verdict === "unread");
  return faulty ? exitCodes.rejected : exitCodes.done;
}
