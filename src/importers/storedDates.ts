import { InputError } from "../core/errors.ts";
import type { ColumnValues } from "./columnLog.ts";
import { shown } from "./shown.ts";

/** How stored times of day are written out, so that one reader of stamps serves all. */
export const dayTimeLayout = "HH:mm:ss.u";

const nsPerDay = 86_400_000_000_000;
const nsPerMs = 1_000_000n;
const msPerDay = 86_400_000n;

/** Stored times of day as text, "" where there is none. A time that no day holds stays as it is, to be refused with its row. */
export function dayTimeTexts({ values, unit }: Extract<ColumnValues, { kind: "daytimes" }>): string[] {
  return Array.from(values, (value) => {
    if (Number.isNaN(value)) return "";
    // Whole nanoseconds: what a double holds of a day in a workbook reaches further down.
    const ns = unit === "d" ? Math.round(value * nsPerDay) : value;
    if (ns < 0 || ns >= nsPerDay) return unit === "d" ? `${value} days` : `${value} ns`;
    return `${new Date(Math.floor(ns / 1e6)).toISOString().slice(11, 19)}.${String(ns % 1e9).padStart(9, "0")}`;
  });
}

/** Stored dates as yyyy-MM-dd, "" where there is none. @throws InputError where they tell a time of day too, or a day of UTC */
export function dateTexts({ ns, zoned }: Extract<ColumnValues, { kind: "stamps" }>, at: string, timeName: string): string[] {
  if (zoned) throw new InputError([{ code: "ambiguous-date", at, message: `expected dates without a zone, since ${shown(timeName)} tells the time of day on a wall, found time stamps in UTC`, hint: "Read these stamps alone, with kind: stamp, or export the date as a date" }]);
  return ns.map((value) => {
    if (value === null) return "";
    const ms = value / nsPerMs;
    const text = new Date(Number(ms)).toISOString();
    if (ms % msPerDay !== 0n) throw new InputError([{ code: "ambiguous-date", at, message: `expected dates alone, since ${shown(timeName)} tells the time of day, found ${text.replace("Z", "")}: its row may be of this moment, or of ${text.slice(0, 10)} at the time in ${shown(timeName)}`, hint: "Read this column alone, with kind: stamp and without dateColumn:, or export the date without a time of day" }]);
    return text.slice(0, 10);
  });
}

const digitLayout = /^([yMdHms]+)(?:[.,](S+|u+))?$/;

/** A number as its layout writes it: 93015.5 in HHmmss.SSS is 093015.500, since a number keeps no zeros. */
export function numberText(value: number, layout: string): string {
  const [, whole = "", fraction = ""] = digitLayout.exec(layout) ?? [];
  if (whole === "" || !(value >= 0)) return String(value);
  const most = fraction.startsWith("S") ? fraction.length : fraction === "" ? 0 : 9;
  const rounded = Number(value.toFixed(most));
  // Arithmetic leaves a rounding in the last digits of a double; anything more is no rounding, and is refused with its row.
  const [before = "", after = ""] = String(Math.abs(rounded - value) <= value * 2 ** -51 ? rounded : value).split(".");
  const digits = fraction.startsWith("S") ? after.padEnd(fraction.length, "0") : fraction === "" ? after : after || "0";
  return `${before.padStart(whole.length, "0")}${digits === "" ? "" : `.${digits}`}`;
}

/** What a bare number may mean as a date, for a refusal that shows every reading. */
export function dateReadings(value: number): string[] {
  const day = (days: number): string => new Date(days * 86_400_000).toISOString().slice(0, 10);
  const digits = /^(\d{4})(\d{2})(\d{2})$/.exec(String(value));
  const counted = [["1900", 25_569], ["1904", 24_107], ["1970", 0], ["the year 0", 719_529]] as const;
  return [
    ...(digits === null ? [] : [`${digits[1]}-${digits[2]}-${digits[3]} by its digits`]),
    ...counted.filter(([, first]) => value >= first && value < first + 47_482).map(([epoch, first]) => `${day(Math.floor(value) - first)} in days from ${epoch}`),
  ];
}

/** What a bare number may mean as a time of day. */
export function dayTimeReadings(value: number): string[] {
  const time = (seconds: number): string => new Date(seconds * 1000).toISOString().slice(11, 23);
  const [h, m, s] = [Math.floor(value / 10_000), Math.floor(value / 100) % 100, value % 100];
  return [
    ...(value >= 0 && h < 24 && m < 60 && s < 60 ? [`${time(h * 3600 + m * 60 + s)} by its digits (HHmmss)`] : []),
    ...(value >= 0 && value < 86_400 ? [`${time(value)} in seconds after midnight`] : []),
    ...(value >= 0 && value < 1 ? [`${time(value * 86_400)} as a part of a day`] : []),
  ];
}
