import { InputError } from "../core/errors.ts";
import { isZone, parseIso, toIso } from "../core/instants.ts";
import type { ChosenColumn } from "./chooseColumns.ts";
import type { CellIssues } from "./columnCells.ts";
import type { ColumnValues } from "./columnLog.ts";
import type { ClockFormat } from "./contract.ts";
import { shown } from "./shown.ts";
import { dayTimeLayout, dayTimeReadings, dayTimeTexts, numberText } from "./storedDates.ts";
import { textTime } from "./textTime.ts";
import type { ToldDate } from "./toldDate.ts";

/** Times of the rows, and the moment of the first where the file gives one. */
export interface ColumnTime {
  readonly timesS: Float64Array;
  readonly startedAt: string | null;
}

type Clock<K extends ClockFormat["kind"]> = Extract<ClockFormat, { kind: K }>;
type Stamps = Extract<ColumnValues, { kind: "stamps" }>;

const nsPerMs = 1_000_000n;
const year2000Ns = 946_684_800_000_000_000n;

/** Stamps written as text, or as numbers whose digits are the stamp. */
export function writtenTime(clock: Clock<"wall" | "iso">, chosen: ChosenColumn, values: ColumnValues, date: ToldDate | null, fileName: string, issues: CellIssues): ColumnTime {
  const digits = clock.kind === "wall" ? (value: number): string => numberText(value, clock.format) : String;
  if (values.kind === "cells") return textTime(clock, values.cells.map((cell) => (cell === null ? "" : typeof cell === "number" ? digits(cell) : cell.replaceAll("\n", " "))), date, chosen, fileName, issues);
  if (values.kind === "numbers" && clock.kind === "wall") return textTime(clock, Array.from(values.values, (value) => (Number.isNaN(value) ? "" : digits(value))), date, chosen, fileName, issues);
  throw new InputError([{ code: "stored-stamp", at: `${fileName}, column "${chosen.name}"`, message: `expected stamps written as text, since the clock is of kind: ${clock.kind}, found a ${chosen.column.type}`, hint: `Declare clock: with kind ${values.kind === "numbers" ? "elapsed" : "stamp"} in rig.yaml` }]);
}

/** Stored times of day, with the date told apart. */
export function apartTime(clock: Clock<"stamp">, chosen: ChosenColumn, values: ColumnValues, date: ToldDate, fileName: string, issues: CellIssues): ColumnTime {
  const at = `${fileName}, column "${chosen.name}"`;
  if (clock.zone === undefined) throw new InputError([{ code: "incomplete-clock", at, message: "expected a zone: in the clock, since a date apart from the time of day has none, found none", hint: "Declare zone: in the clock in rig.yaml: the zone the logger's clock was set to" }]);
  if (values.kind === "daytimes") return textTime({ kind: "wall", format: dayTimeLayout, zone: clock.zone }, dayTimeTexts(values), date, chosen, fileName, issues);
  const bare = values.kind === "numbers" ? values.values.find((value) => !Number.isNaN(value)) : undefined;
  if (bare !== undefined) throw new InputError([{ code: "ambiguous-time", at, message: `expected stored times of day, found the number ${bare}, which may be ${dayTimeReadings(bare).join(", or ") || "anything"}`, hint: "Declare kind: wall with the layout of the digits, e.g. format: HHmmss, or kind: elapsed for a log that needs no date" }]);
  const moment = values.kind === "stamps" ? values.ns.find((ns) => ns !== null) : undefined;
  if (moment != null) throw new InputError([{ code: "ambiguous-date", at, message: `expected times of day alone, since the date is told apart, found ${new Date(Number(moment / nsPerMs)).toISOString().replace("Z", "")}: its row may be of this date, or of ${date.first}`, hint: "Take dateColumn, dateLabel or startDate out of clock: in rig.yaml, or export the time of day without a date" }]);
  throw new InputError([{ code: "no-stored-stamp", at, message: `expected stored times of day, since the clock is of kind: stamp, found ${chosen.column.type}`, hint: "Declare kind: wall with the format: of the text in rig.yaml" }]);
}

/** Time stamps that the file stores as such. */
export function storedTime(clock: Clock<"stamp">, chosen: ChosenColumn, values: ColumnValues, fileName: string, issues: CellIssues): ColumnTime {
  const at = `${fileName}, column "${chosen.name}"`;
  if (values.kind !== "stamps") throw new InputError([{ code: "no-stored-stamp", at, message: `expected stored time stamps, since the clock is of kind: stamp, found ${chosen.column.type}`, hint: `Declare ${values.kind === "cells" ? "clock: with kind iso or wall" : values.kind === "daytimes" ? "where the date is (dateColumn, dateLabel or startDate) in clock:" : "clock: with kind elapsed"} in rig.yaml` }]);
  if (clock.zone !== undefined && !isZone(clock.zone)) throw new InputError([unknownZone(at, clock.zone)]);
  if (!values.zoned && clock.zone === undefined) throw new InputError([{ code: "incomplete-clock", at, message: "expected time stamps in UTC, or a zone: in the clock, found time stamps without a zone", hint: "Declare zone: in the clock in rig.yaml: the zone the logger's clock was set to" }]);
  const timesS = sinceFirst(values, chosen, fileName, issues);
  const first = values.ns[0];
  const last = values.ns.at(-1);
  if (first == null || last == null) return { timesS, startedAt: null };
  if (values.zoned) return { timesS, startedAt: toIso(Number(first / nsPerMs), clock.zone ?? "UTC") };
  const zone = clock.zone as string;
  const start = moment(first, zone);
  const end = moment(last, zone);
  for (const one of [start, end]) if ("problem" in one) issues.add({ code: "unreadable-time", at, message: `the time stamp ${one.problem}`, hint: "Set the logger to UTC, or correct zone: in rig.yaml" });
  if (!("problem" in start) && !("problem" in end) && BigInt(end.ms - start.ms) !== last / nsPerMs - first / nsPerMs) issues.add({ code: "clocks-changed", at, message: `expected a log within one offset of ${zone}, found one over which the clocks were changed`, hint: "Set the logger to UTC and repeat, or cut the log at the change" });
  return { timesS, startedAt: "problem" in start ? null : toIso(start.ms, zone) };
}

/** The stamps that recorded messages carry. */
export function messageTime(clock: Clock<"message">, chosen: ChosenColumn, values: Stamps, fileName: string, issues: CellIssues): ColumnTime {
  const at = `${fileName}, ${chosen.name} of ${shown(chosen.part.name)}`;
  const [first] = values.ns;
  if (values.ns.length > 1 && values.ns.every((ns) => ns === first)) throw new InputError([{ code: "idle-stamp", at, message: `expected stamps that go forward, found ${first === 0n ? "all of them zero" : "the same in every message"}: nobody filled them in`, hint: "Choose another stamp: in clock: in rig.yaml" }]);
  const timesS = sinceFirst(values, chosen, fileName, issues);
  if (clock.epoch === "boot" || first == null) return { timesS, startedAt: null };
  if (first < year2000Ns) throw new InputError([{ code: "not-unix-time", at, message: `expected a clock that counts from 1970 (epoch: unix), found ${Number(first) / 1e9} s in the first message`, hint: "Declare epoch: boot in clock: in rig.yaml, if the clock counts from a computer's start" }]);
  return { timesS, startedAt: toIso(Number(first / nsPerMs), "UTC") };
}

function sinceFirst(values: Stamps, chosen: ChosenColumn, fileName: string, issues: CellIssues): Float64Array {
  const first = values.ns[0] ?? 0n;
  return Float64Array.from(values.ns, (ns, row) => {
    if (ns !== null) return Number(ns - first) / 1e9;
    issues.add({ code: "unreadable-time", at: `${fileName} ${chosen.part.rowName(row)}, column "${chosen.name}"`, message: "expected a time stamp, found none", hint: "Correct clock: in rig.yaml, or repair the log" });
    return Number.NaN;
  });
}

function moment(localNs: bigint, zone: string): ReturnType<typeof parseIso> {
  const date = new Date(Number(localNs / nsPerMs));
  return Number.isNaN(date.getTime()) ? { problem: "is outside the calendar" } : parseIso(date.toISOString().replace("Z", ""), zone);
}

function unknownZone(at: string, zone: string): { code: string; at: string; message: string; hint: string } {
  return { code: "unknown-zone", at, message: `expected a time zone, found "${zone}"`, hint: "Set zone: in rig.yaml to an IANA name like Europe/Oslo, to UTC, or to an offset like UTC+2" };
}
