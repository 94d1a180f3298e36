import { clockModuliS } from "../core/clockModuli.ts";
import { isoHasOffset, parseIso } from "../core/instants.ts";
import { parseUnit, unitKind } from "../core/units.ts";
import { intervalsOf } from "../numerics/intervals.ts";
import type { Intervals } from "../numerics/intervals.ts";
import type { ClockFormat } from "./contract.ts";
import type { Reading } from "./dialect.ts";
import { numericRows } from "./numericRows.ts";
import type { RowPlan, Rows } from "./numericRows.ts";
import { layoutsOf } from "./stampLayouts.ts";
import { stampReader } from "./stamps.ts";
import type { StampClock } from "./stamps.ts";
import { columnTimes, stampTimes } from "./times.ts";

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

/** The largest share of steps back that a clock which was set or began again leaves. */
const mostBack = 0.1;
/** The time stands among the first columns; trying every layout on very many takes minutes. */
const columnsTried = 200;

export function timeCandidates(one: Reading, plan: RowPlan, rows: Rows): TimeCandidate[] {
  return one.headings.slice(0, columnsTried).flatMap((heading, column) => {
    const slot = plan.slots[column] as number;
    const values = slot >= 0 ? rows.columns[slot] : undefined;
    if (values !== undefined) return numbers(heading.written, heading.name, heading.unit, values);
    return stamped(one, plan, column, heading.name);
  });
}

function numbers(written: string, name: string, unitText: string | null, values: Float64Array): TimeCandidate[] {
  if (values.length < 2 || values.some(Number.isNaN)) return [];
  const unit = unitText === null ? undefined : parseUnit(unitText);
  if (unit !== undefined && unitKind(unit) === "time") {
    const known = unit as "s" | "ms" | "us" | "min" | "h" | "d";
    const own = pace(columnTimes(values, known));
    const back = own.intervals.backward + own.intervals.rollovers;
    // A column that goes back as often as forth is no time, whatever its unit.
    if (back > mostBack * own.intervals.count) return [];
    return [{ column: written, clock: { kind: "elapsed", column: name, unit: known }, why: `${back === 0 ? "rises throughout" : "rises but for the steps named here"}, and its unit is ${known}`, ...own }];
  }
  if (unitText !== null) return [];
  const { intervals } = pace(values);
  if (intervals.median === null || intervals.duplicates + intervals.backward + intervals.rollovers > 0) return [];
  return [{ column: written, clock: null, why: `rises throughout in steps of about ${Number(intervals.median.toPrecision(4))}, but the file does not say its unit; elapsed time, or a counter`, rateHz: null, durationS: null, intervals }];
}

function stamped(one: Reading, plan: RowPlan, column: number, name: string): TimeCandidate[] {
  const cells = one.sample.map((row) => row[column] ?? "").filter((cell) => cell !== "");
  if (cells.length === 0) return [];
  const written = one.headings[column]?.written ?? "";
  const sample = [...new Set([cells[0] as string, ...cells.slice(-20), ...cells.slice(0, 20)])];
  if (sample.every((cell) => !("problem" in parseIso(cell, "UTC")))) {
    const offset = sample.every(isoHasOffset);
    const why = offset ? "ISO 8601 stamps with their zone" : "ISO 8601 stamps without a zone: declare zone:";
    return [{ column: written, clock: offset ? { kind: "iso", column: name } : null, why, ...paceOf(plan, column, { kind: "iso", zone: "UTC" }) }];
  }
  const layouts = layoutsOf(sample);
  return layouts.map((format) => ({
    column: written,
    clock: null,
    why: `stamps of the layout ${format}${layouts.length > 1 ? " (one of several that fit)" : ""}: declare format: and zone:`,
    ...paceOf(plan, column, { kind: "wall", format, zone: "UTC" }),
  }));
}

/** Steps between stamps do not need the zone. */
function paceOf(plan: RowPlan, column: number, clock: StampClock): Pace {
  const reader = stampReader(clock, plan.bytes, plan.text);
  const slots = new Int32Array(plan.slots.length).fill(-1);
  slots[column] = -2;
  const rows = numericRows({ ...plan, slots, slotNames: [], stamp: reader.read, stampProblem: reader.problem });
  const stamps = (rows.stamps as Float64Array).filter((value) => !Number.isNaN(value));
  return pace(stampTimes(stamps));
}

type Pace = Pick<TimeCandidate, "rateHz" | "durationS" | "intervals">;

function pace(timesS: Float64Array): Pace {
  const intervals = intervalsOf(timesS, clockModuliS);
  const { median } = intervals;
  if (timesS.length < 2) return { rateHz: null, durationS: null, intervals };
  return { rateHz: median === null ? null : Number((1 / median).toPrecision(9)), durationS: (timesS.at(-1) as number) - (timesS[0] as number), intervals };
}
