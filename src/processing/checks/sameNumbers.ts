import { finding } from "../../core/finding.ts";
import { groupBy } from "../../core/groupBy.ts";
import type { DayFinding } from "../dayFinding.ts";
import type { RunResult, Trace } from "../dayResult.ts";

/** A trace with fewer different values says nothing by being alike. */
const fewestValues = 50;

/**
 * Two runs cannot give the same numbers, whatever the bytes of their files: a copy that was opened and saved again, or a file
 * whose header was corrected, passes for another run's. Compared on what is kept of each trace.
 */
export function sameNumbers(runs: readonly RunResult[]): DayFinding[] {
  const traces = runs.flatMap((run) => run.traces.flatMap((trace) => (telling(trace) ? [{ run: run.plan.id, channel: trace.channel, key: `${trace.channel} ${trace.values.join(" ")}` }] : [])));
  const alike = [...groupBy(traces, ({ key }) => key).values()].filter((group) => group.length > 1);
  const byRuns = groupBy(alike, (group) => group.map(({ run }) => run).join(", "));
  return [...byRuns].map(([names, groups]) => {
    const channels = groups.map((group) => group[0]?.channel).join(", ");
    const doubtful = runs.filter((run) => groups[0]?.some((one) => one.run === run.plan.id) && !knownAsWrong(run)).map(({ plan }) => plan.id);
    const found = finding("same-numbers", doubtful.length > 1 ? "reject" : "look", `${names} hold the very same numbers in ${channels}: one log is a copy of the other. Find each run's own file, or repeat the run`, { channel: groups[0]?.[0]?.channel ?? null });
    return { ...found, takesOut: doubtful };
  });
}

/** A person or the file itself says already that this log is not this run's: the other one stands. No other verdict counts here, for it may hang on a run that this very finding takes out. */
function knownAsWrong({ plan, findings }: RunResult): boolean {
  return plan.excluded !== null || findings.some(({ code, severity }) => severity === "reject" && (code === "same-bytes" || code === "run-label-differs"));
}

function telling(trace: Trace): boolean {
  return new Set(trace.values).size >= fewestValues;
}
