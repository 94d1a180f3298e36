import { describe, expect, it } from "vitest";
import { readWorkbookSheet } from "../../src/campaign/workbookSheet.ts";
import { formatFile } from "../importers/formatTruth.ts";
import { exampleDay } from "./exampleDay.ts";
import { reading, stopping } from "./issuesOf.ts";

const book = formatFile("xlsx/runs.xlsx");
const day = { "runs.csv": null, "runs.xlsx": book };

describe("a run sheet as a workbook, as openpyxl writes it", () => {
  it("is read like the same table as text", () => {
    const { runs } = reading(day);
    expect(runs.map(({ id, kind, wheel, bed, setLoadN, setSlip, excluded, line }) => [id, kind, wheel, bed, setLoadN, setSlip, excluded, line])).toEqual([
      ["T01", "traction", "Birk", "Bed 1", 150, 0.2, null, 3],
      ["T02", "traction", "Birk", "Bed 1", 150.5, -0.1, "carriage stuck", 4],
      ["H01", "hardFloor", "Birk", null, 1.234, null, null, 5],
    ]);
    expect(runs[0]?.more).toEqual({ day: { text: "2026-10-01" } });
  });

  it("says what it left out, filled in or found hidden", () => {
    expect(reading(day).issues.map(({ code, message, run }) => [code, message.split("found ")[1], run])).toEqual([
      ["title-rows", "them in row 2; what stands above was left out", null],
      ["hidden-cells", 'that row 4 of the sheet "Runs" is hidden; hidden cells were read like any other', null],
      ["hidden-sheet", 'that the sheet "Notes" is hidden, and was not read', null],
      ["merged-cells", "the cells C3:C4 merged; each of their rows got the value", null],
      ["merged-cells", "the cells D3:D4 merged; each of their rows got the value", null],
    ]);
  });

  it("does not choose between two tables of one name", () => {
    expect(stopping({ "runs.xlsx": book, "runs.csv": exampleDay["runs.csv"] })).toContainEqual({ code: "two-tables", at: "runs.csv", message: "expected runs.csv or runs.xlsx, found both", hint: expect.any(String) });
  });

  it("refuses a workbook without such headings, one cut short and one that is none", () => {
    const codes = (bytes: Uint8Array) => readWorkbookSheet(bytes, "runs.xlsx", ["no such heading"]).issues.map(({ code, at }) => [code, at]);
    expect(codes(book)).toEqual([["no-headings", "runs.xlsx"]]);
    expect(codes(book.subarray(0, 3000))).toEqual([["not-a-table", "runs.xlsx"]]);
    expect(codes(new TextEncoder().encode("run,kind\n"))).toEqual([["not-a-table", "runs.xlsx"]]);
    expect(stopping({ ...day, "runs.xlsx": book.subarray(0, 3000) })).toMatchObject([{ code: "not-a-table" }]);
  });
});
