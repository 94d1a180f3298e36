import { reduceDay } from "../day.ts";
import type { DayResult } from "../processing/dayResult.ts";
import { reportTexts } from "../report/writeReport.ts";
import { madeAtMark } from "./cache/findDay.ts";
import type { DayOutput } from "./cache/findDay.ts";
import { daySummary, dayExitCode } from "./daySummary.ts";
import type { Threads } from "./runPool.ts";
import { isRejected, progressLine, rejectedLine } from "./progress.ts";

/** A day from its files to what is written and said of it. */
export async function freshDay(day: string, quiet: boolean, { hands, fits }: Threads): Promise<{ readonly result: DayResult; readonly output: DayOutput }> {
  const progress = progressLine(quiet);
  const result = await reduceDay(day, { onProgress: progress.step, hands, fitHands: fits(progress.fit) });
  progress.end(result.runs);
  const files = reportTexts(result, { madeAt: madeAtMark }).map(({ name, text }) => ({ name, bytes: Buffer.from(text, "utf8") }));
  return { result, output: { files, rejected: result.runs.filter(isRejected).map(rejectedLine), summary: daySummary(result), exitCode: dayExitCode(result) } };
}
