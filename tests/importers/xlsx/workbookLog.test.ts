import { describe, expect, it } from "vitest";
import { workbookLog } from "../../../src/importers/xlsx/workbookLog.ts";
import { expectTruth, formatFile, readFormat, refusalOf, truth } from "../formatTruth.ts";

const file = "xlsx/log1900.xlsx";

describe("XLSX workbooks, as openpyxl writes them", () => {
  it("reads headings over a line of units, empty cells as missing, and what stands above", async () => {
    const table = await readFormat(file, { part: "Log" });
    expectTruth(table);
    expect(table.columns.map(({ unit }) => unit)).toEqual(["N", "N", "count"]);
    expect(table.metadata).toEqual([["Run", "R07"]]);
    expect((await readFormat(file, { part: "Old" })).metadata).toEqual([]);
  });

  it("names hidden rows, and tells a hidden sheet from the log", async () => {
    expect((await readFormat(file, { part: "Log" })).findings).toMatchObject([{ code: "hidden-cells", severity: "look", message: 'logs/R07: rows 10 to 11 of the sheet "Log" are hidden; hidden cells were read like any other' }]);
    expect(await refusalOf(file)).toMatchObject([{ code: "ambiguous-part", message: 'expected one sheet with the columns "Fx", "Fz", "Enc", "t", found "Log", "Old"' }]);
    expect((await readFormat(file, { part: "Old", columns: ["Gone"] })).findings[0]?.message).toContain('the sheet "Old" is hidden');
    expect(await refusalOf(file, { columns: ["Slip", "Gone"], clock: { kind: "rate", rateHz: 10 } })).toMatchObject([{ code: "columns-of-two-parts", message: expect.stringContaining('"Gone" in another than "Log"') }]);
  });

  it.each(["xlsx/log1900.xlsx", "xlsx/log1904.xlsx"])("reads date cells of %s to the millisecond", async (name) => {
    const table = await readFormat(name, { part: name.includes("1900") ? "Log" : "Sheet", clock: { kind: "stamp", column: "Time", zone: "UTC" } });
    expectTruth(table);
    expect(table.startedAt).toBe("2026-10-01T08:00:00.000Z");
  });

  it("reads numbers as they are shown: per cent", async () => {
    const table = await readFormat(file, { part: "Log", columns: ["Slip"] });
    expect(table.columns[0]?.unit).toBe("%");
    expect([...(table.columns[0]?.samples ?? [])]).toEqual(truth.t.map((_, k) => k % 100));
  });

  it("asks for a zone, and says what a clock of another kind would need", async () => {
    expect(await refusalOf(file, { part: "Log", clock: { kind: "stamp", column: "Time" } })).toMatchObject([{ code: "incomplete-clock", message: expect.stringContaining("time stamps without a zone") }]);
    expect(await refusalOf(file, { part: "Log", clock: { kind: "iso", column: "Time" } })).toMatchObject([{ code: "stored-stamp", hint: "Declare clock: with kind stamp in rig.yaml" }]);
    expect(await refusalOf(file, { part: "Log", clock: { kind: "elapsed", column: "Time", unit: "d" } })).toMatchObject([{ code: "stamp-as-number" }]);
    expect(await refusalOf(file, { part: "Log", clock: { kind: "message", stamp: "log", epoch: "unix" } })).toMatchObject([{ code: "no-such-stamp" }]);
  });

  it("reads times of day as elapsed days, which carry no date", async () => {
    const table = await readFormat("xlsx/log1904.xlsx", { columns: ["F"], clock: { kind: "elapsed", column: "at", unit: "d" } });
    [...table.timesS].forEach((time, k) => expect(time).toBeCloseTo(8 * 3600 + k, 6));
    expect((await refusalOf("xlsx/log1904.xlsx", { columns: ["F"], clock: { kind: "stamp", column: "at", zone: "UTC" } }))[0]?.message).toContain("times of day or durations");
  });

  it("names text among numbers by its row, and a formula that nobody computed", async () => {
    expect(await refusalOf(file, { part: "Log", columns: ["Remark"] })).toMatchObject([{ code: "text-in-number", at: 'logs/R07 row 5, column "Remark"', message: 'expected a number, found "start"' }]);
    expect(await refusalOf("xlsx/log1904.xlsx", { part: "Formulas", columns: ["F"] })).toMatchObject([{ at: 'logs/R07 row 2, column "F"', message: 'expected a number, found "a formula without its result"' }]);
    const marked = await readFormat(file, { part: "Log", columns: ["Remark"], overload: ["start"] });
    expect(marked.columns[0]?.overloaded).toEqual([0]);
  });

  it("names merged cells among the rows, and finds the headings where a line is declared", async () => {
    const table = await readFormat("xlsx/log1904.xlsx", { part: "Sheet" });
    expect(table.findings).toMatchObject([{ code: "merged-cells", message: expect.stringContaining("G6:G9") }]);
    expectTruth(await readFormat(file, { part: "Log", headerLine: 3, unitLine: 4 }));
    expect((await refusalOf(file, { part: "Log", headerLine: 5 }))[0]?.code).toBe("missing-column");
  });

  it("says what is inside", async () => {
    const contents = await workbookLog.contents?.(formatFile(file), "log.xlsx");
    expect(contents).toMatchObject({ partWord: "sheet", parts: [{ name: "Log" }, { name: "Old", remarks: [expect.stringContaining("hidden")] }] });
    expect(contents?.parts[0]?.columns).toEqual(expect.arrayContaining([{ name: "Time", unit: null, rows: 200, type: "date cells" }, { name: "Fx", unit: "N", rows: 200, type: "numbers" }]));
  });
});
