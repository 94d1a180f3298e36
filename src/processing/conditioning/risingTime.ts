import { rolloverIn } from "../../core/clockModuli.ts";
import type { Issue } from "../../core/errors.ts";
import type { Samples, TimeBase } from "../../core/recording.ts";
import { intervalsOf } from "../../numerics/intervals.ts";

/** The time base of a log, or why it has none: a clock must rise from row to row. */
export function risingTime(timesS: Samples, file: string): { readonly time: TimeBase; readonly issues: readonly Issue[] } {
  const steps = timeSteps(file);
  steps.add(timesS);
  return { time: { kind: "stamped", timesS }, issues: steps.issues() };
}

/** The same for a log that comes in pieces, each beginning with the last row of the one before. */
export function timeSteps(file: string): { add(timesS: Samples): void; readonly issues: () => Issue[] } {
  let steps = 0;
  let backwards = 0;
  let standing = 0;
  let first: { readonly row: number; readonly fromS: number; readonly toS: number; readonly begunAgain: string } | null = null;
  return {
    add(timesS) {
      for (let i = 1; i < timesS.length; i++) {
        steps++;
        const fromS = timesS[i - 1] as number;
        const toS = timesS[i] as number;
        if (toS - fromS > 0) continue;
        first ??= { row: steps + 1, fromS, toS, begunAgain: begunAgain(timesS, i) };
        if (toS - fromS < 0) backwards++;
        else standing++;
      }
    },
    issues() {
      if (first === null) return [];
      if (standing === steps && steps > 0) return [{ code: "time-constant", at: `${file}, time column`, message: `expected a time that runs, found the same time ${first.fromS} s in all ${steps + 1} rows`, hint: "Look whether clock.column in rig.yaml names the right column" }];
      const at = `${file}, data row ${first.row}, time column`;
      if (backwards > 0) return [{ code: "time-backwards", at, message: `expected time to rise, found ${first.fromS} s followed by ${first.toS} s (${backwards} steps backwards in the file)${first.begunAgain}`, hint: "Look whether the logger was restarted or its clock set during the run; split the file there, or repeat the run" }];
      if (standing > 0) return [{ code: "time-repeated", at, message: `expected time to rise, found ${standing} rows with the time of the row before`, hint: "If the stamps are coarser than the sampling, declare clock: { kind: rate, rateHz: … } for this logger" }];
      return [];
    },
  };
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
