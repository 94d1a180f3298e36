import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { groupBy } from "../../core/groupBy.ts";
import type { RunResult, Trace } from "../dayResult.ts";

/** A trace with fewer different values says nothing by being alike. */
const fewestValues = 50;

/**
 * Two runs cannot give the same numbers, whatever the bytes of their files: a copy that was opened and saved again, or a file
 * whose header was corrected, passes for another run's. Compared on what is kept of each trace.
 */
export function sameNumbers(runs: readonly RunResult[]): Finding[] {
  const traces = runs.flatMap((run) => run.traces.flatMap((trace) => (telling(trace) ? [{ run: run.plan.id, channel: trace.channel, key: `${trace.channel} ${trace.values.join(" ")}` }] : [])));
  const alike = [...groupBy(traces, ({ key }) => key).values()].filter((group) => group.length > 1);
  const byRuns = groupBy(alike, (group) => group.map(({ run }) => run).join(", "));
  return [...byRuns].map(([names, groups]) => {
    const channels = groups.map((group) => group[0]?.channel).join(", ");
    return finding("same-numbers", "reject", `${names} hold the very same numbers in ${channels}: one log is a copy of the other. Find each run's own file, or repeat the run`, { channel: groups[0]?.[0]?.channel ?? null });
  });
}

function telling(trace: Trace): boolean {
  return new Set(trace.values).size >= fewestValues;
}
