import type { Intervals } from "../numerics/intervals.ts";

/** Jitter below this share of the median is what the rounding of numbers leaves. */
const rounding = 1e-6;

/** The distribution of sampling intervals in words. @param unit "s", or null where the file does not say it: then numbers stand as in the file */
export function showIntervals(intervals: Intervals, unit: "s" | null): string[] {
  const { median, low, high, shortest, longest, jitter, gaps, missing, duplicates, backward, rollovers } = intervals;
  const rest = [
    gaps > 0 ? `${many(gaps, "gap")} with ${many(missing, "sample")} missing` : "no gaps",
    duplicates > 0 ? `${many(duplicates, "time")} written twice` : "",
    backward > 0 ? `${many(backward, "step")} back` : "",
    rollovers > 0 ? `${many(rollovers, "rollover")}` : "",
  ].filter((part) => part !== "");
  if (median === null || low === null || high === null || shortest === null || longest === null || jitter === null) return [rest.slice(1).join("; ")].filter((line) => line !== "");
  const [scale, shown] = unit === null ? [1, ""] : median < 1 ? [1000, " ms"] : [1, " s"];
  const number = (value: number): string => String(Number((value * scale).toPrecision(4)));
  return [
    `intervals: median ${number(median)}${shown}; 1 % to 99 %: ${number(low)} to ${number(high)}${shown}; shortest ${number(shortest)}, longest ${number(longest)}${shown}; ${jitter < rounding * median ? "no jitter" : `jitter ${Number((jitter * scale).toPrecision(2))}${shown}`}`,
    rest.join("; "),
  ];
}

function many(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}
