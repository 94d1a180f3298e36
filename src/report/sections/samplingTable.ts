import type { Intervals } from "../../numerics/intervals.ts";
import type { LogSampling } from "../../processing/logSampling.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { roundSignificant } from "../showEstimate.ts";
import { table } from "../table.ts";

/** How evenly each log of a run was sampled. */
export function samplingTable(logs: readonly LogSampling[]): Html {
  return table(logs, [
    { heading: "Logger", show: (log) => log.logger },
    { heading: "Interval, median [ms]", align: "right", show: ({ intervals, statedRateHz }) => (intervals === null ? `${roundSignificant(1000 / (statedRateHz ?? Number.NaN), 4)} as stated` : ms(intervals.median)) },
    { heading: "1 % … 99 % [ms]", align: "right", show: ({ intervals }) => span(intervals, "low", "high") },
    { heading: "Shortest … longest [ms]", align: "right", show: ({ intervals }) => span(intervals, "shortest", "longest") },
    { heading: "Jitter [ms]", align: "right", show: ({ intervals }) => ms(intervals?.jitter ?? null) },
    { heading: "What breaks it", align: "wrap", show: ({ intervals }) => (intervals === null ? "the file has no time column" : html`${breaks(intervals)}`) },
  ]);
}

function breaks({ gaps, missing, duplicates, backward, rollovers }: Intervals): string {
  const said = [
    gaps > 0 ? `${gaps} ${gaps === 1 ? "gap" : "gaps"} (${missing} samples missing)` : "",
    duplicates > 0 ? `${duplicates} times written twice` : "",
    backward > 0 ? `${backward} steps back` : "",
    rollovers > 0 ? `${rollovers} rollovers` : "",
  ].filter((part) => part !== "");
  return said.length === 0 ? "nothing" : said.join(", ");
}

function span(intervals: Intervals | null, from: "low" | "shortest", to: "high" | "longest"): string {
  return intervals === null || intervals[from] === null ? "–" : `${ms(intervals[from])} … ${ms(intervals[to])}`;
}

/** Milliseconds to a microsecond and to four digits, whichever is coarser: below that is what stamps round away. */
function ms(seconds: number | null): string {
  return seconds === null ? "–" : roundSignificant(Math.round(seconds * 1e6) / 1e3, 4);
}
