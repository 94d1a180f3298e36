import { describe, expect, it } from "vitest";
import type { ClockFormat } from "../../src/importers/contract.ts";
import { numberText } from "../../src/importers/storedDates.ts";
import { readFormat, refusalOf } from "./formatTruth.ts";

/** Eight rows over midnight, four a second; fixtures/formats/dated says which programs wrote them. */
const timesS = Array.from({ length: 8 }, (_, k) => k / 4);
const zone = "Europe/Oslo";
const stamp = { kind: "stamp", column: "Time", zone, dateColumn: "Date" } as const;
const wall = (column: string, format: string, rest: Partial<Extract<ClockFormat, { kind: "wall" }>>): ClockFormat => ({ kind: "wall", column, format, zone, ...rest });

const good: readonly (readonly [string, string, ClockFormat])[] = [
  ["XLSX date cells beside time cells", "log.xlsx", stamp],
  ["XLSX text beside text", "log.xlsx", wall("Clock", "HH:mm:ss.SSS", { dateColumn: "Day", dateFormat: "dd.MM.yyyy" })],
  ["XLSX date cells beside text", "log.xlsx", wall("Clock", "HH:mm:ss.SSS", { dateColumn: "Date" })],
  ["XLSX time cells beside text", "log.xlsx", { ...stamp, dateColumn: "Day", dateFormat: "dd.MM.yyyy" }],
  ["XLSX time cells below a line with the date", "log.xlsx", { kind: "stamp", column: "Time", zone, dateLabel: "Started", dateFormat: "dd.MM.yyyy" }],
  ["MAT 5 digits beside digits", "log.mat", wall("time", "HHmmss.SSS", { dateColumn: "date", dateFormat: "yyyyMMdd" })],
  ["MAT 5 digits with a text that holds the date", "log.mat", wall("time", "HHmmss.u", { dateLabel: "started", dateFormat: "yyyy-MM-dd" })],
  ["MAT 7.3 digits beside digits", "version73.mat", wall("time", "HHmmss.SSS", { dateColumn: "date", dateFormat: "yyyyMMdd" })],
  ["HDF5 text beside text in another group", "log.h5", wall("clock/time", "HH:mm:ss.SSS", { dateColumn: "date", dateFormat: "dd.MM.yyyy" })],
  ["HDF5 digits with an attribute that holds the date", "log.h5", wall("clock/digits", "HHmmss.u", { dateLabel: "started", dateFormat: "dd.MM.yyyy" })],
  ["Parquet dates beside times of day", "log.parquet", { ...stamp, column: "time", dateColumn: "date" }],
  ["Parquet times of day beside text", "log.parquet", { ...stamp, column: "time", dateColumn: "textDate", dateFormat: "dd.MM.yyyy" }],
  ["Parquet times of day from a declared date on", "log.parquet", { kind: "stamp", column: "time", zone, startDate: "2026-10-01" }],
  ["Arrow days beside microseconds", "log.arrow", { ...stamp, column: "time", dateColumn: "date" }],
  ["Arrow dates in milliseconds beside milliseconds", "log.arrow", { ...stamp, column: "timeMs", dateColumn: "dateMs" }],
];

const read = (file: string, clock: ClockFormat) => readFormat(`dated/${file}`, { columns: ["F"], clock });
const refused = async (file: string, clock: ClockFormat, columns: readonly string[] = ["F"]) => (await refusalOf(`dated/${file}`, { columns, clock }))[0];

describe("a date apart from the time of day, in formats of named columns", () => {
  it.each(good)("%s", async (_, file, clock) => {
    const table = await read(file, clock);
    expect([...table.timesS]).toEqual(timesS);
    expect(table.startedAt).toBe("2026-10-01T23:59:59.000+02:00");
    expect([...(table.columns[0]?.samples ?? [])]).toEqual(timesS.map((_, k) => k / 2));
  });

  it("shows both readings of what may mean two things, and takes neither", async () => {
    expect(await refused("log.xlsx", { ...stamp, dateColumn: "Both" })).toMatchObject({ code: "ambiguous-date", message: expect.stringMatching(/found 2026-10-01T23:59:59.000: its row may be of this moment, or of 2026-10-01 at the time in "Time"/) });
    expect(await refused("log.xlsx", { ...stamp, column: "Both" })).toMatchObject({ code: "ambiguous-date", message: expect.stringContaining("found 2026-10-01T23:59:59.000: its row may be of this date, or of 2026-10-01") });
    expect(await refused("log.xlsx", { ...stamp, dateColumn: "Serial" })).toMatchObject({ code: "ambiguous-date", message: "expected dates, found the number 46296, which may be 2026-10-01 in days from 1900, or 2030-10-02 in days from 1904, or 2096-10-02 in days from 1970" });
    expect(await refused("log.mat", { kind: "stamp", column: "time", zone, dateColumn: "date" })).toMatchObject({ code: "ambiguous-date", message: expect.stringContaining("found the number 20261001, which may be 2026-10-01 by its digits") });
    expect(await refused("log.mat", { kind: "stamp", column: "seconds", zone, startDate: "2026-10-01" })).toMatchObject({ code: "ambiguous-time", message: "expected stored times of day, found the number 34215.25, which may be 03:42:15.250 by its digits (HHmmss), or 09:30:15.250 in seconds after midnight" });
  });

  it("says what a declaration lacks", async () => {
    expect(await refused("log.parquet", { kind: "stamp", column: "time", zone })).toMatchObject({ code: "no-stored-stamp", hint: expect.stringContaining("where the date is (dateColumn, dateLabel or startDate)") });
    expect(await refused("log.parquet", { kind: "stamp", column: "time", startDate: "2026-10-01" })).toMatchObject({ code: "incomplete-clock", message: expect.stringContaining("zone:") });
    expect(await refused("log.parquet", { ...stamp, column: "time", dateColumn: "textDate" })).toMatchObject({ code: "incomplete-clock", message: "expected dateFormat: beside dateColumn or dateLabel, found none" });
    expect(await refused("log.parquet", { ...stamp, column: "time", dateColumn: "date", dateFormat: "dd.MM.yyyy" })).toMatchObject({ code: "incomplete-clock", message: expect.stringContaining("expected no dateFormat:") });
    expect(await refused("log.parquet", { ...stamp, column: "time", dateColumn: "date", startDate: "2026-10-01" })).toMatchObject({ message: "expected one place for the date, found dateColumn and startDate" });
    expect(await refused("log.parquet", { ...stamp, column: "time", dateColumn: "time" })).toMatchObject({ code: "no-date", at: 'logs/R07, column "time"' });
    expect(await refused("log.parquet", { ...stamp, column: "time", dateColumn: "Datum" })).toMatchObject({ code: "missing-column", message: expect.stringContaining('"Datum"') });
    expect(await refused("log.parquet", stamp, ["time"])).toMatchObject({ code: "missing-column" });
    expect(await refused("log.parquet", { ...stamp, column: "time", dateColumn: "date" }, ["time"])).toMatchObject({ code: "stamp-as-number" });
    expect(await refused("log.h5", wall("clock/time", "HH:mm:ss.SSS", { dateLabel: "ended", dateFormat: "dd.MM.yyyy" }))).toMatchObject({ code: "no-date-line", message: 'expected "ended" with the date beside the numbers, found "started"' });
    expect(await refused("log.h5", wall("clock/short", "HH:mm:ss.SSS", { dateColumn: "date", dateFormat: "dd.MM.yyyy" }))).toMatchObject({ code: "unequal-length" });
    expect(await refused("log.h5", wall("clock/time", "HH:mm:ss.SSS", { dateColumn: "date", dateFormat: "yyyy-MM-dd" }))).toMatchObject({ code: "unreadable-time", at: 'logs/R07 row 1, column "clock/time"', message: expect.stringContaining("does not fit the layout") });
    expect(await refused("log.xlsx", wall("Time", "HH:mm:ss", { dateColumn: "Date" }))).toMatchObject({ code: "stored-stamp", hint: "Declare clock: with kind stamp in rig.yaml" });
  });
});

describe("digits kept as a number", () => {
  it.each([
    [93015, "HHmmss", "093015"],
    [15.5, "HHmmss.SSS", "000015.500"],
    [93015, "HHmmss.SSS", "093015.000"],
    [93015, "HHmmss.u", "093015.0"],
    [93015 + 0.1 + 0.2, "HHmmss.SSS", "093015.300"],
    [93015.12345, "HHmmss.SSS", "093015.12345"],
    [93015.5, "HHmmss", "093015.5"],
    [20261001, "yyyyMMdd", "20261001"],
    [-5, "HHmmss", "-5"],
    [2026, "dd.MM.yyyy", "2026"],
  ])("%d in the layout %s", (value, layout, text) => {
    expect(numberText(value, layout)).toBe(text);
  });
});
