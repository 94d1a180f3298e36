import type { Finding } from "../core/finding.ts";
import type { RunResult } from "./dayResult.ts";
import { judge } from "./reduceRun.ts";

/** A finding that only several runs show. */
export interface DayFinding extends Finding {
  /** runs that a reject takes out of everything that rests on them; none = it spoils a comparison, not a run */
  readonly takesOut?: readonly string[];
}

/** A reject of the day counts against the runs it names like one of their own. */
export function withDayRejects(runs: readonly RunResult[], findings: readonly DayFinding[]): RunResult[] {
  return runs.map((run) => {
    const against = findings.filter((found) => takesOutRuns(found) && found.takesOut?.includes(run.plan.id) === true);
    if (against.length === 0) return run;
    const all = [...run.findings, ...against.map(({ takesOut: _, ...found }) => found)];
    return { ...run, findings: all, ...judge(run.plan, all, run.issues) };
  });
}

/** Such a finding stands with its runs; every other one with the day. */
export function takesOutRuns({ severity, takesOut = [] }: DayFinding): boolean {
  return severity === "reject" && takesOut.length > 0;
}
