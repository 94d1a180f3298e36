import type { Issue } from "../core/errors.ts";
import type { Rows } from "./numericRows.ts";
import type { TextLog } from "./rowReader.ts";
import { serialTime } from "./serialTime.ts";
import { columnTimes } from "./times.ts";

/** Times of a log's rows, piece by piece, counted as they are when the log is read whole. */
export interface PieceTimes {
  of(rows: Rows): Float64Array;
  /** for a clock that counts days: the moment of the first row; the stamps of other clocks say it themselves */
  startedAt(): string | null;
  issues(): readonly Issue[];
}

export function pieceTimes({ options: { clock }, choice, fileName }: TextLog, timeSlot: number): PieceTimes {
  let row = 0;
  let first = Number.NaN;
  let last = Number.NaN;
  const serial = () => (clock.kind === "serial" ? serialTime(Float64Array.of(first, last), clock, `${fileName} line ${choice.reading.firstRowLine}, column "${clock.column}"`) : null);
  /** as `serialTime` and `stampTimes` count: from the first row, in the same arithmetic */
  const sinceFirst = (values: Float64Array, seconds: (difference: number) => number): Float64Array => {
    if (row === 0) first = values[0] as number;
    last = values[values.length - 1] as number;
    return values.map((value) => seconds(value - first));
  };
  return {
    of(rows) {
      const before = row;
      const numbers = rows.columns[timeSlot];
      const times =
        clock.kind === "rate"
          ? Float64Array.from({ length: rows.count }, (_, i) => (before + i) / clock.rateHz)
          : clock.kind === "elapsed"
            ? columnTimes((numbers as Float64Array).slice(), clock.unit)
            : clock.kind === "serial"
              ? sinceFirst(numbers as Float64Array, (days) => days * 86_400)
              : sinceFirst(rows.stamps as Float64Array, (ns) => ns / 1e9);
      row += rows.count;
      return times;
    },
    startedAt: () => serial()?.startedAt ?? null,
    issues: () => serial()?.issues ?? [],
  };
}
