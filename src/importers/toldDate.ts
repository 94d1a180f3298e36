import { InputError } from "../core/errors.ts";
import type { ChosenColumn } from "./chooseColumns.ts";
import type { ColumnValues } from "./columnLog.ts";
import { datePlaceProblem, datePlaces, isoDate } from "./datePlace.ts";
import type { DateApart } from "./datePlace.ts";
import { shown } from "./shown.ts";
import { dateReadings, dateTexts, numberText } from "./storedDates.ts";

/** The date of a log whose stamps are times of day: of each row, or of the first. */
export interface ToldDate {
  readonly format: string;
  readonly ofRows: readonly string[] | null;
  readonly first: string;
}

/** The column that holds the date, with its values. */
export interface DateColumn {
  readonly chosen: ChosenColumn;
  readonly values: ColumnValues;
}

/** The date that a clock tells apart from the time of day; null = it tells none. @throws InputError where it is not told in one way */
export function toldDate(clock: DateApart, timeName: string, column: DateColumn | null, metadata: readonly (readonly [string, string])[], fileName: string): ToldDate | null {
  const at = column === null ? fileName : `${fileName}, column "${column.chosen.name}"`;
  if (column?.values.kind === "daytimes") throw new InputError([{ code: "no-date", at, message: `expected dates, found ${column.chosen.column.type}`, hint: "Correct dateColumn: in rig.yaml" }]);
  const stored = column?.values.kind === "stamps";
  const bare = column === null ? null : firstNumber(column.values);
  if (bare !== null && clock.dateFormat === undefined) throw new InputError([{ code: "ambiguous-date", at, message: `expected dates, found the number ${bare}, which may be ${dateReadings(bare).join(", or ") || "anything"}`, hint: "Declare dateFormat: with the layout of the digits, e.g. yyyyMMdd, in clock: in rig.yaml, or export the date as a date" }]);
  const problem = datePlaceProblem(clock, stored);
  if (problem !== null) throw new InputError([{ code: "incomplete-clock", at, message: `expected ${problem.message}`, hint: problem.hint }]);
  if (datePlaces(clock).length === 0) return null;
  const format = clock.dateFormat ?? isoDate;
  if (column === null) return { format, ofRows: null, first: clock.startDate ?? labelled(clock.dateLabel as string, metadata, fileName) };
  const ofRows = rowDates(column.values, format, at, timeName);
  return { format, ofRows, first: ofRows[0] ?? "" };
}

function rowDates(values: ColumnValues, format: string, at: string, timeName: string): string[] {
  if (values.kind === "stamps") return dateTexts(values, at, timeName);
  if (values.kind !== "cells") return Array.from(values.values, (value) => (Number.isNaN(value) ? "" : numberText(value, format)));
  return values.cells.map((cell) => (cell === null ? "" : typeof cell === "number" ? numberText(cell, format) : cell.replaceAll("\n", " ")));
}

/** By its whole name, or by its last step: `log.date` is called `date` too where no other is. */
function labelled(label: string, metadata: readonly (readonly [string, string])[], fileName: string): string {
  const by = (is: (key: string) => boolean): readonly (readonly [string, string])[] => metadata.filter(([key]) => is(key.replace(/:$/, "").trim()));
  const whole = by((key) => key === label);
  const found = whole.length > 0 ? whole : by((key) => key.endsWith(`/${label}`) || key.endsWith(`.${label}`));
  const dates = new Set(found.map(([, value]) => value.trim()));
  const [only] = dates;
  if (only !== undefined && dates.size === 1) return only;
  if (dates.size > 1) throw new InputError([{ code: "ambiguous-date", at: fileName, message: `expected one date called ${shown(label)}, found ${found.map(([key, value]) => `${shown(value)} in ${shown(key)}`).join(" and ")}`, hint: "Write its whole name in dateLabel: in rig.yaml" }]);
  throw new InputError([{ code: "no-date-line", at: fileName, message: `expected ${shown(label)} with the date beside the numbers, found ${metadata.map(([key]) => shown(key)).slice(0, 20).join(", ") || "nothing"}`, hint: "Correct dateLabel: in rig.yaml, or declare dateColumn: or startDate:" }]);
}

function firstNumber(values: ColumnValues): number | null {
  if (values.kind === "numbers") return values.values.find((value) => !Number.isNaN(value)) ?? null;
  const first = values.kind === "cells" ? values.cells.find((cell) => cell !== null) : null;
  return typeof first === "number" ? first : null;
}
