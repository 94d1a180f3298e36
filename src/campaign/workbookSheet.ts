import type { Issue } from "../core/errors.ts";
import { cellText, oddities, percentOf } from "../workbook/cellText.ts";
import type { Cell, Merge, WorkbookRow } from "../workbook/sheetXml.ts";
import { readWorkbook } from "../workbook/workbook.ts";
import type { WorkbookSheet } from "../workbook/workbook.ts";
import { list, show } from "./nearest.ts";
import { markEvidence } from "./numberCell.ts";
import { columnOf, headingIssues, sheetOf, tooLarge } from "./sheet.ts";
import type { Sheet, SheetReading, SheetRow } from "./sheet.ts";

/** Headings stand below a title of a few lines at most. */
const mostTitleRows = 20;

/** A table in a workbook. `known` are the column names the table may have; they find its sheet and its headings. */
export function readWorkbookSheet(bytes: Uint8Array, file: string, known: readonly string[]): SheetReading {
  let sheets: readonly WorkbookSheet[];
  try {
    sheets = readWorkbook(bytes).sheets;
  } catch (error) {
    return refused({ code: "not-a-table", at: file, message: `expected a whole XLSX workbook, found one that cannot be read: ${show((error as Error).message)}`, hint: "Save it again, or save the table as CSV." });
  }
  const fit = sheets.filter((sheet) => headingsAt(sheet, known) >= 0);
  const visible = fit.filter((sheet) => !sheet.hidden);
  const named = visible.filter((sheet) => `${sheet.name.toLowerCase()}.xlsx` === file);
  const [sheet] = named.length === 1 ? named : visible;
  if (sheet === undefined) return refused({ code: "no-headings", at: file, message: `expected a sheet with a line of headings such as ${list(known, 6)}, found ${fit.length > 0 ? `them only in the hidden sheet ${show(fit[0]?.name)}` : `none in ${list(sheets.map(({ name }) => show(name)))}`}`, hint: fit.length > 0 ? "Show the sheet, if it is meant." : "Write the headings in one row." });
  if (visible.length > 1 && named.length !== 1) return refused({ code: "ambiguous-sheet", at: file, message: `expected one sheet with the table, found ${list(visible.map(({ name }) => show(name)))}`, hint: `Name the right one ${file.replace(/\.xlsx$/, "")}, or remove the others.` });
  return readTable(sheet, sheets, file, known);
}

function refused(issue: Issue): SheetReading {
  return { sheet: null, issues: [issue], remarks: [] };
}

/** The row with the most known headings; -1 = none has any. */
function headingsAt(sheet: WorkbookSheet, known: readonly string[]): number {
  const counts = sheet.rows.slice(0, mostTitleRows).map((row) => Array.from(row.cells, cellText).filter((text) => known.includes(columnOf(text, 0).name)).length);
  const most = Math.max(0, ...counts);
  return most === 0 ? -1 : counts.indexOf(most);
}

function readTable(sheet: WorkbookSheet, sheets: readonly WorkbookSheet[], file: string, known: readonly string[]): SheetReading {
  const at = headingsAt(sheet, known);
  const head = sheet.rows[at] as WorkbookRow;
  const headings = Array.from(head.cells, cellText);
  const below = sheet.rows.slice(at + 1);
  const merges = sheet.merges.filter((merge) => merge.toRow - 1 > head.number);
  const large = tooLarge(file, below.reduce((most, { cells }) => Math.max(most, cells.length), headings.length), below.length);
  if (large !== null) return refused(large);
  const byNumber = new Map(sheet.rows.map((row) => [row.number, row]));
  const rows = below.map((row) => rowOf(row, filled(row, byNumber, merges), headings)).filter((row) => row.cells.some((cell) => cell !== ""));
  const table = sheetOf(file, { line: head.number, cells: headings }, rows, markEvidence(rows.flatMap(({ cells, numbers }) => cells.filter((_, index) => numbers?.[index] === undefined && columnOf(headings[index] ?? "", index).bracket !== null)), ";"), `XLSX workbook; sheet ${show(sheet.name)}`);
  const marked: Sheet = { ...table, rows: table.rows.map((row, index) => ({ ...row, issue: row.issue ?? brokenCell(file, headings, byNumber.get(row.line) ?? (below[index] as WorkbookRow)) ?? wideMerge(file, row.line, merges) })) };
  const remark = (code: string, text: string, hint: string): Issue => ({ code, at: file, message: text, hint });
  const unseen = sheets.filter((other) => other !== sheet && other.hidden && other.rows.length > 0).map(({ name }) => `the sheet ${show(name)} is hidden, and was not read`);
  return {
    sheet: marked,
    issues: headingIssues(marked, head.number),
    remarks: [
      ...(at === 0 ? [] : [remark("title-rows", `expected the headings in the first row, found them in row ${head.number}; what stands above was left out`, "Nothing to do if it is a title.")]),
      ...oddities(sheet).map((text) => remark("hidden-cells", `expected nothing hidden, found that ${text}; hidden cells were read like any other`, "Show them, and exclude runs that do not count with excluded: yes.")),
      ...unseen.map((text) => remark("hidden-sheet", `expected nothing hidden, found that ${text}`, "Nothing to do if it does not count.")),
      ...merges.filter(isTall).map(({ ref }) => remark("merged-cells", `expected a cell a row, found the cells ${ref} merged; each of their rows got the value`, "Nothing to do if that is meant; else take the merging off.")),
    ],
  };
}

/** Merged over rows alone: one value for all of them. */
function isTall(merge: Merge): boolean {
  return merge.toColumn - merge.fromColumn === 1;
}

function filled(row: WorkbookRow, byNumber: ReadonlyMap<number, WorkbookRow>, merges: readonly Merge[]): readonly (Cell | undefined)[] {
  const cells = [...row.cells];
  for (const merge of merges) {
    if (!isTall(merge) || row.number <= merge.fromRow || row.number >= merge.toRow) continue;
    cells[merge.fromColumn] = byNumber.get(merge.fromRow)?.cells[merge.fromColumn];
  }
  return cells;
}

function rowOf(row: WorkbookRow, cells: readonly (Cell | undefined)[], headings: readonly string[]): Pick<SheetRow, "line" | "cells" | "numbers"> {
  return {
    line: row.number,
    cells: Array.from({ length: Math.max(cells.length, headings.length) }, (_, index) => cellText(cells[index])),
    numbers: Array.from(cells, (cell, index) => numberIn(cell, columnOf(headings[index] ?? "", index).unit)),
  };
}

/** 20 % under `slip [%]` is 20, under `slip [1]` it is 0.2; under any other unit it is no number. */
function numberIn(cell: Cell | undefined, unit: string | null): number | undefined {
  if (cell?.kind === "number") return cell.value;
  if (cell?.kind !== "percent") return undefined;
  return unit === "%" ? percentOf(cell.value) : unit === "1" ? cell.value : undefined;
}

function brokenCell(file: string, headings: readonly string[], row: WorkbookRow): Issue | null {
  const index = row.cells.findIndex((cell) => cell?.kind === "error" || cell?.kind === "formula without result");
  if (index < 0) return null;
  return { code: "broken-formula", at: `${file} line ${row.number}, column "${headings[index] ?? ""}"`, message: `expected a value, found ${cellText(row.cells[index])}`, hint: "Open the workbook in a spreadsheet program, mend the formula and save it, or type the value." };
}

function wideMerge(file: string, line: number, merges: readonly Merge[]): Issue | null {
  const found = merges.find((merge) => !isTall(merge) && line >= merge.fromRow && line < merge.toRow);
  return found === undefined ? null : { code: "merged-cells", at: `${file} line ${line}`, message: `expected a cell under each heading, found the cells ${found.ref} merged`, hint: "Take the merging off, and fill each cell in." };
}
