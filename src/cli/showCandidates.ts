import type { TimeCandidate } from "../importers/timeCandidate.ts";
import { showIntervals } from "./showIntervals.ts";

/** Columns that may be the time, each with its reason, its pace and its intervals. */
export function showCandidates(candidates: readonly TimeCandidate[]): string[] {
  return candidates.flatMap((candidate) => {
    const pace = candidate.rateHz === null ? "" : `; about ${Number(candidate.rateHz.toPrecision(5))} samples per second over ${Number((candidate.durationS ?? 0).toPrecision(5))} s`;
    const lines = showIntervals(candidate.intervals, candidate.rateHz === null ? null : "s").map((line) => `  ${line}`);
    return [`${candidate.column}: ${candidate.why}${pace}`, ...lines, ...(candidate.clock === null ? [] : [`  clock: ${JSON.stringify(candidate.clock)}`])];
  });
}
