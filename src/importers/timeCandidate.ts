import { clockModuliS } from "../core/clockModuli.ts";
import { isoHasOffset, parseIso } from "../core/instants.ts";
import { parseUnit, unitKind } from "../core/units.ts";
import { intervalsOf } from "../numerics/intervals.ts";
import type { Intervals } from "../numerics/intervals.ts";
import type { ClockFormat } from "./contract.ts";
import { layoutsOf } from "./stampLayouts.ts";
import type { StampClock } from "./stamps.ts";
import { dateReadings } from "./storedDates.ts";
import { columnTimes } from "./times.ts";

/** A column that may be the time. Shown, never chosen. */
export interface TimeCandidate {
  readonly column: string;
  /** what to declare in rig.yaml; null where something only a person knows is missing */
  readonly clock: ClockFormat | null;
  readonly why: string;
  /** from the median step; null where the unit is not known */
  readonly rateHz: number | null;
  readonly durationS: number | null;
  /** how its steps are distributed; in seconds, or as written where the unit is not known */
  readonly intervals: Intervals;
}

/** How a column is called. */
export interface ColumnNames {
  /** as people see it */
  readonly shown: string;
  /** as a clock in rig.yaml names it */
  readonly declared: string;
  /** alone, without its path */
  readonly bare: string;
}

export type Pace = Pick<TimeCandidate, "rateHz" | "durationS" | "intervals">;

/** The largest share of steps back that a clock which was set or began again leaves. */
const mostBack = 0.1;
const timeName = /^(t|time|timestamp|time ?stamp|elapsed|clock|zeit|temps|tiempo|tempo|tid)(?![a-z])/i;
/** Nobody logged before; a smaller number is no date, whatever it is counted from. */
const leastDateDays = 20_000;

export function namedLikeTime(name: string): boolean {
  return timeName.test(name.slice(Math.max(name.lastIndexOf("."), name.lastIndexOf("/")) + 1));
}

/** A column of numbers as the time: by its unit, by its name, or because it rises throughout. */
export function numberCandidate(names: ColumnNames, unitText: string | null, all: Float64Array): TimeCandidate | null {
  const unit = unitText === null ? undefined : parseUnit(unitText);
  const ofTime = unit !== undefined && unitKind(unit) === "time";
  if (unitText !== null && !ofTime) return null;
  const named = namedLikeTime(names.bare);
  const values = all.filter((value) => !Number.isNaN(value));
  if (values.length < 2 || (values.length < all.length && !ofTime && !named)) return null;
  const empty = emptyCells(all.length - values.length);
  const written = pace(values);
  const { intervals } = written;
  // A column that goes back as often as forth is no time, whatever its unit.
  if (intervals.median === null || intervals.backward + intervals.rollovers > mostBack * intervals.count) return null;
  const steady = intervals.duplicates + intervals.backward + intervals.rollovers === 0;
  if (ofTime) {
    const known = unit as "s" | "ms" | "us" | "min" | "h" | "d";
    const own = pace(columnTimes(values, known));
    const back = own.intervals.backward + own.intervals.rollovers;
    return { column: names.shown, clock: { kind: "elapsed", column: names.declared, unit: known }, why: `${back === 0 ? "rises throughout" : "rises but for the steps named here"}, and its unit is ${known}${empty}`, ...own };
  }
  if (!steady && !named) return null;
  const dates = intervals.median < 1 && (values[0] as number) > leastDateDays ? dateReadings(values[0] as number) : [];
  const doubt = `elapsed time, or a counter${dates.length === 0 ? "" : `, or dates in days (the first may be ${dates.join(", or ")}; see kind: serial)`}`;
  return { column: names.shown, clock: null, why: `${steady ? "rises throughout" : "is named like a time and rises but for the steps named here,"} in steps of about ${Number(intervals.median.toPrecision(4))}, but the file does not say its unit; ${doubt}${empty}`, rateHz: null, durationS: null, intervals };
}

/** A column of text as the time: one candidate for every layout that its stamps allow. */
export function textCandidates(names: ColumnNames, cells: readonly string[], paceOf: (clock: StampClock) => Pace): TimeCandidate[] {
  if (cells.length === 0) return [];
  const sample = [...new Set([cells[0] as string, ...cells.slice(-20), ...cells.slice(0, 20)])];
  if (sample.every((cell) => !("problem" in parseIso(cell, "UTC")))) {
    const offset = sample.every(isoHasOffset);
    const why = offset ? "ISO 8601 stamps with their zone" : "ISO 8601 stamps without a zone: declare zone:";
    return [{ column: names.shown, clock: offset ? { kind: "iso", column: names.declared } : null, why, ...paceOf({ kind: "iso", zone: "UTC" }) }];
  }
  const layouts = layoutsOf(sample);
  return layouts.map((format) => ({
    column: names.shown,
    clock: null,
    why: `stamps of the layout ${format}${layouts.length > 1 ? " (one of several that fit)" : ""}: declare format: and zone:`,
    ...paceOf({ kind: "wall", format, zone: "UTC" }),
  }));
}

export function emptyCells(count: number): string {
  return count === 0 ? "" : `; ${count} of its cells hold${count === 1 ? "s" : ""} no time`;
}

export function pace(timesS: Float64Array): Pace {
  const intervals = intervalsOf(timesS, clockModuliS);
  const { median } = intervals;
  if (timesS.length < 2) return { rateHz: null, durationS: null, intervals };
  return { rateHz: median === null ? null : Number((1 / median).toPrecision(9)), durationS: (timesS.at(-1) as number) - (timesS[0] as number), intervals };
}
