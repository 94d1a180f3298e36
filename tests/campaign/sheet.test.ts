import { describe, expect, it } from "vitest";
import { readSheet } from "../../src/campaign/sheet.ts";
import { reading, stopping } from "./issuesOf.ts";
import { exampleDay } from "./exampleDay.ts";

const known = ["run", "kind", "load", "remark"];
const bytes = (text: string, encoding: BufferEncoding = "utf8") => new Uint8Array(Buffer.from(text, encoding));
const rows = (content: Uint8Array) => readSheet(content, "runs.csv", known).sheet?.rows.map((row) => row.cells);

describe("dialects", () => {
  const wanted = [["A1", "traction", "1,5", "Müller, \u00b5m"]];
  const table = (mark: string) => `run${mark}kind${mark}load [N]${mark}remark\r\nA1${mark}traction${mark}"1,5"${mark}"Müller, \u00b5m"\r\n`;
  it.each([
    ["comma", bytes(table(","))],
    ["semicolon", bytes(table(";"))],
    ["tab", bytes(table("\t"))],
    ["UTF-8 with byte-order mark", bytes(`\ufeff${table(";")}`)],
    ["UTF-16LE with byte-order mark, as a spreadsheet's Unicode text", bytes(`\ufeff${table("\t")}`, "utf16le")],
    ["UTF-16LE without", bytes(table("\t"), "utf16le")],
    ["UTF-16BE", new Uint8Array(Buffer.from(`\ufeff${table("\t")}`, "utf16le").swap16())],
    ["Latin-1", bytes(table(";"), "latin1")],
    ["stated separator", bytes(`sep=|\n${table("|")}`)],
    ["lone carriage returns", bytes(table(",").replaceAll("\r\n", "\r"))],
  ])("%s", (_, content) => expect(rows(content)).toEqual(wanted));

  it("reads a whole day with decimal commas like one with decimal points", () => {
    const translate = (text: string) => text.replaceAll(",", ";").replace(/(\d)\.(\d)/g, "$1,$2");
    const german = { "runs.csv": `\ufeff${translate(exampleDay["runs.csv"])}`, "wheels.csv": translate(exampleDay["wheels.csv"]), "beds.csv": translate(exampleDay["beds.csv"]) };
    const { files: _, ...day } = reading(german);
    const { files: __, ...original } = reading();
    expect(german["wheels.csv"]).toContain("1,9;24");
    expect(day).toEqual(original);
  });
});

describe("lines", () => {
  it("are the file's, empty lines and line breaks in cells counted", () => {
    const { sheet } = readSheet(bytes('\nrun,kind\n\nA,traction\n,\nB,"two\nlines"\nC,drop\n'), "runs.csv", known);
    expect(sheet?.rows.map((row) => [row.line, row.cells[0]])).toEqual([[4, "A"], [6, "B"], [8, "C"]]);
  });
});

describe("what cannot be taken apart", () => {
  const codes = (text: string) => readSheet(bytes(text), "runs.csv", known).issues.map((issue) => [issue.code, issue.at]);
  it("empty file", () => expect(codes("\n\n")).toEqual([["empty-file", "runs.csv"]]));
  it("an open quotation mark", () => expect(codes('run,kind\nA,"traction\nB,drop\n')).toEqual([["broken-quotes", "runs.csv line 2"]]));
  it("a heading twice", () => expect(codes("run,kind,Run\nA,drop,B\n")).toEqual([["duplicate-heading", 'runs.csv line 1, column "Run"']]));
  it("bytes that are no text", () => expect(codes("run,kind\nA,\0\0\n")).toEqual([["not-a-table", "runs.csv"]]));
  it("a table beyond any size", () => expect(stopping({ "runs.csv": new Uint8Array(20_000_001).fill(32) }).map((issue) => [issue.code, issue.at])).toContainEqual(["file-too-large", "runs.csv"]));
});

describe("rows that have slipped", () => {
  const issues = (text: string) => readSheet(bytes(text), "runs.csv", known).sheet?.rows.map((row) => row.issue?.code ?? null);
  it("more cells than headings: an unquoted decimal comma", () => expect(issues("run,load [N],remark\nA,1.5,x\nB,1,5,x\nC,1,5,\n")).toEqual([null, "too-many-cells", "too-many-cells"]));
  it("text below no heading", () => expect(issues("run,,remark\nA,,x\nB,y,\n")).toEqual([null, "cell-without-heading"]));
});
