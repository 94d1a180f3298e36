import { rolloverIn } from "../../core/clockModuli.ts";
import type { Issue } from "../../core/errors.ts";
import type { Samples, TimeBase } from "../../core/recording.ts";
import { intervalsOf } from "../../numerics/intervals.ts";

/** The time base of a log, or why it has none: a clock must rise from row to row. */
export function risingTime(timesS: Samples, file: string): { readonly time: TimeBase; readonly issues: readonly Issue[] } {
  const issues: Issue[] = [];
  let backwards = 0;
  let standing = 0;
  let first = -1;
  for (let i = 1; i < timesS.length; i++) {
    const step = (timesS[i] as number) - (timesS[i - 1] as number);
    if (step > 0) continue;
    if (first < 0) first = i;
    if (step < 0) backwards++;
    else standing++;
  }
  if (standing === timesS.length - 1 && timesS.length > 1) {
    issues.push({ code: "time-constant", at: `${file}, time column`, message: `expected a time that runs, found the same time ${timesS[0]} s in all ${timesS.length} rows`, hint: "Look whether clock.column in rig.yaml names the right column" });
  } else if (backwards > 0) {
    issues.push({ code: "time-backwards", at: `${file}, data row ${first + 1}, time column`, message: `expected time to rise, found ${timesS[first - 1]} s followed by ${timesS[first]} s (${backwards} steps backwards in the file)${begunAgain(timesS, first)}`, hint: "Look whether the logger was restarted or its clock set during the run; split the file there, or repeat the run" });
  } else if (standing > 0) {
    issues.push({ code: "time-repeated", at: `${file}, data row ${first + 1}, time column`, message: `expected time to rise, found ${standing} rows with the time of the row before`, hint: "If the stamps are coarser than the sampling, declare clock: { kind: rate, rateHz: … } for this logger" });
  }
  return { time: { kind: "stamped", timesS }, issues };
}

/** What the first step back looks like, where it is a clock that began again. */
function begunAgain(timesS: Samples, first: number): string {
  const { median } = intervalsOf(timesS.subarray(0, first));
  const says = median === null ? "" : rolloverIn((timesS[first] as number) - (timesS[first - 1] as number), median);
  return says === "" ? "" : `; that step is ${says}`;
}

/** As many intervals as this, spread over the log, give its median interval. */
const judgedIntervals = 1001;

/** Median interval between samples [s]. */
export function medianInterval(time: TimeBase): number {
  if (time.kind === "uniform") return 1 / time.rateHz;
  const { timesS } = time;
  const intervals = timesS.length - 1;
  if (intervals < 1) return Number.NaN;
  const count = Math.min(judgedIntervals, intervals);
  const steps = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const i = Math.floor((k * intervals) / count);
    steps[k] = (timesS[i + 1] as number) - (timesS[i] as number);
  }
  steps.sort();
  return steps[Math.floor(count / 2)] as number;
}
