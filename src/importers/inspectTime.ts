import { isoHasOffset, parseIso } from "../core/instants.ts";
import { parseUnit, unitKind } from "../core/units.ts";
import { median } from "../numerics/statistics.ts";
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
  /** steps longer than 1.5 median steps */
  readonly gaps: number;
  readonly longestStepS: number | null;
  /** steps that do not go forward */
  readonly backward: number;
}

/** A step this many times the median is a gap: one sample missing makes two. */
const gapSteps = 1.5;

export function timeCandidates(one: Reading, plan: RowPlan, rows: Rows): TimeCandidate[] {
  return one.headings.flatMap((heading, column) => {
    const slot = plan.slots[column] as number;
    const values = slot >= 0 ? rows.columns[slot] : undefined;
    if (values !== undefined) return numbers(heading.written, heading.name, heading.unit, values);
    return stamped(one, plan, column, heading.name);
  });
}

function numbers(written: string, name: string, unitText: string | null, values: Float64Array): TimeCandidate[] {
  if (values.length < 2 || values.some((value, index) => Number.isNaN(value) || (index > 0 && value < (values[index - 1] as number)))) return [];
  const unit = unitText === null ? undefined : parseUnit(unitText);
  if (unit !== undefined && unitKind(unit) === "time") {
    const known = unit as "s" | "ms" | "us" | "min" | "h" | "d";
    return [{ column: written, clock: { kind: "elapsed", column: name, unit: known }, why: `rises throughout, and its unit is ${known}`, ...pace(columnTimes(values, known)) }];
  }
  if (unitText !== null || values.some((value, index) => index > 0 && value === values[index - 1])) return [];
  const own = pace(values);
  if (own.longestStepS === null || own.rateHz === null) return [];
  const step = 1 / own.rateHz;
  return [{ column: written, clock: null, why: `rises throughout in steps of about ${Number(step.toPrecision(4))}, but the file does not say its unit; elapsed time, or a counter`, rateHz: null, durationS: null, gaps: own.gaps, longestStepS: null, backward: own.backward }];
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

type Pace = Pick<TimeCandidate, "rateHz" | "durationS" | "gaps" | "longestStepS" | "backward">;

function pace(timesS: Float64Array): Pace {
  if (timesS.length < 2) return { rateHz: null, durationS: null, gaps: 0, longestStepS: null, backward: 0 };
  const steps = Float64Array.from({ length: timesS.length - 1 }, (_, i) => (timesS[i + 1] as number) - (timesS[i] as number));
  const usual = median(steps);
  let longest = 0;
  let gaps = 0;
  let backward = 0;
  for (const step of steps) {
    if (step > longest) longest = step;
    if (step > gapSteps * usual) gaps++;
    if (step <= 0) backward++;
  }
  return { rateHz: usual > 0 ? Number((1 / usual).toPrecision(9)) : null, durationS: (timesS.at(-1) as number) - (timesS[0] as number), gaps, longestStepS: longest, backward };
}
