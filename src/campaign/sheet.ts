import Papa from "papaparse";
import type { Issue } from "../core/errors.ts";
import { cut } from "../core/printable.ts";
import { parseUnit } from "../core/units.ts";
import type { Unit } from "../core/units.ts";
import { decodeText } from "./decodeText.ts";
import { list, show } from "./nearest.ts";
import { markEvidence } from "./numberCell.ts";
import type { MarkEvidence } from "./numberCell.ts";

/** One column of a table people wrote. */
export interface SheetColumn {
  /** the heading before its brackets, in small letters: `plate width` */
  readonly name: string;
  /** the heading as written */
  readonly heading: string;
  /** what stands in the brackets; null = no brackets */
  readonly bracket: string | null;
  /** the unit the brackets name; null = none, or not one drawbar knows */
  readonly unit: Unit | null;
  readonly index: number;
}

export interface SheetRow {
  /** counted from 1, the headings' line included */
  readonly line: number;
  readonly cells: readonly string[];
  /** numbers that a workbook's cells hold as such; text is to be read where there is none */
  readonly numbers?: readonly (number | undefined)[];
  /** the row does not fit under the headings */
  readonly issue: Issue | null;
}

/** A table people wrote: text cells with their lines, nothing interpreted but the headings. */
export interface Sheet {
  readonly file: string;
  readonly columns: readonly SheetColumn[];
  readonly rows: readonly SheetRow[];
  readonly marks: MarkEvidence;
  /** what was concluded from the bytes */
  readonly evidence: string;
}

const delimiters = [";", "\t", ","] as const;

/** Where in a table: `runs.csv line 7, column "load [N]"`. */
export function cellPlace(sheet: Sheet, line: number, column?: SheetColumn): string {
  return `${sheet.file} line ${line}${column === undefined ? "" : `, column "${cut(column.heading, 60)}"`}`;
}

export interface SheetReading {
  /** null when it cannot be taken apart; then the issues say why */
  readonly sheet: Sheet | null;
  readonly issues: readonly Issue[];
  /** worth knowing; stops nothing */
  readonly remarks: readonly Issue[];
}

/**
 * A table as a spreadsheet exports it. `known` are the column names the table may have; they decide the delimiter.
 * The sheet is null when it cannot be taken apart; then the issues say why.
 */
export function readSheet(bytes: Uint8Array, file: string, known: readonly string[]): SheetReading {
  const { text: raw, encoding } = decodeText(bytes);
  const text = raw.replace(/\r\n?/g, "\n");
  if (text.includes("\0")) return { sheet: null, issues: [{ code: "not-a-table", at: file, message: "expected a text table, found zero bytes", hint: "Save the table as CSV or XLSX." }], remarks: [] };
  const stated = /^sep=(.)\n/i.exec(text);
  const body = stated === null ? text : text.slice(6);
  const delimiter = stated?.[1] ?? bestDelimiter(body, known);
  const { data, errors } = Papa.parse<string[]>(body, { delimiter, newline: "\n", header: false, skipEmptyLines: false });

  const lines: number[] = [];
  let line = stated === null ? 1 : 2;
  for (const cells of data) {
    lines.push(line);
    line += 1 + cells.reduce((count, cell) => count + cell.split("\n").length - 1, 0);
  }
  const rows = data.map((cells, index) => ({ line: lines[index] as number, cells: cells.map((cell) => cell.trim()) })).filter((row) => row.cells.some((cell) => cell !== ""));
  const issues: Issue[] = errors
    .filter((error) => error.type === "Quotes")
    .map((error) => ({
      code: "broken-quotes",
      at: `${file} line ${lines[error.row ?? 0] ?? 1}`,
      message: "expected every opening quotation mark to be closed, found one that is not",
      hint: "Close or remove the quotation mark; everything after it is in doubt.",
    }));
  const [head, ...rest] = rows;
  if (head === undefined) return { sheet: null, issues: [{
    code: "empty-file",
    at: file,
    message: "expected a line of headings, found an empty file",
    hint: `Write the headings: ${list(known, 20)}.`,
  }], remarks: [] };

  const large = tooLarge(file, head.cells.length, rest.length);
  if (large !== null) return { sheet: null, issues: [large], remarks: [] };
  const cells = numberCells(head.cells, rest);
  const shownDelimiter = delimiter === "\t" ? "tab" : delimiter === ";" ? "semicolon" : delimiter === "," ? "comma" : show(delimiter);
  const sheet = sheetOf(file, head, rest, markEvidence(cells, delimiter), `${encoding}; ${shownDelimiter}`);
  return { sheet: issues.length > 0 ? null : sheet, issues: [...issues, ...headingIssues(sheet, head.line)], remarks: [] };
}

/** Who writes a table by hand stays far below. */
const mostColumns = 1000;
const mostRows = 50_000;
const longestHeading = 200;
const longestCell = 10_000;

/** A table of a size that no person made. */
export function tooLarge(file: string, columns: number, rows: number): Issue | null {
  if (columns <= mostColumns && rows <= mostRows) return null;
  return { code: "table-too-large", at: file, message: `expected at most ${mostColumns} columns and ${mostRows} rows, found ${columns} columns and ${rows} rows`, hint: "Is this the table? Logs belong into files of their own." };
}

type Row = Pick<SheetRow, "line" | "cells" | "numbers">;

function numberCells(headings: readonly string[], rows: readonly Row[]): string[] {
  const numbers = headings.flatMap((heading, index) => (columnOf(heading, index).bracket === null ? [] : [index]));
  return rows.flatMap((row) => numbers.map((index) => row.cells[index] ?? ""));
}

/** Rows under their headings. */
export function sheetOf(file: string, head: Row, rows: readonly Row[], marks: MarkEvidence, evidence: string): Sheet {
  const columns = head.cells.map((heading, index) => columnOf(heading, index)).filter((column) => column.heading !== "");
  return { file, columns, rows: rows.map((row) => ({ ...row, issue: misfit(file, row, head.cells) })), marks, evidence };
}

export function columnOf(heading: string, index: number): SheetColumn {
  const match = /^(.*?)\s*\[(.*)\]$/s.exec(heading.slice(0, longestHeading));
  const bracket = match === null ? null : (match[2] as string).trim();
  const name = (match?.[1] ?? heading.slice(0, longestHeading)).trim().toLowerCase().replace(/[\s_]+/g, " ");
  return { name, heading, bracket, unit: bracket === null ? null : (parseUnit(bracket) ?? null), index };
}

/** The delimiter under which the first line shows the most known headings; the most columns when even. */
function bestDelimiter(text: string, known: readonly string[]): string {
  const first = text.split("\n").find((candidate) => candidate.trim() !== "") ?? "";
  let best: string = ",";
  let bestScore = -1;
  for (const delimiter of delimiters) {
    const headings = Papa.parse<string[]>(first, { delimiter, newline: "\n" }).data[0] ?? [];
    const score = headings.filter((heading) => known.includes(columnOf(heading.trim(), 0).name)).length * 1000 + Math.min(headings.length, 999);
    if (score > bestScore) [best, bestScore] = [delimiter, score];
  }
  return best;
}

export function headingIssues(sheet: Sheet, line: number): Issue[] {
  const seen = new Map<string, SheetColumn>();
  const issues: Issue[] = [];
  for (const column of sheet.columns) {
    const first = seen.get(column.name);
    if (first === undefined) seen.set(column.name, column);
    else issues.push({
      code: "duplicate-heading",
      at: cellPlace(sheet, line, column),
      message: `expected each heading once, found ${show(column.name)} in columns ${first.index + 1} and ${column.index + 1}`,
      hint: "Rename or remove one of the two columns.",
    });
  }
  return issues;
}

/** More cells than headings, or text below no heading: the cells have slipped, so none of them can be trusted. */
function misfit(file: string, row: { readonly line: number; readonly cells: readonly string[] }, headings: readonly string[]): Issue | null {
  const long = row.cells.findIndex((cell) => cell.length > longestCell);
  if (long >= 0) return { code: "cell-too-long", at: `${file} line ${row.line}`, message: `expected cells of at most ${longestCell} letters, found ${row.cells[long]?.length} in column ${long + 1}`, hint: "Is a quotation mark not closed?" };
  const hint = "Give the column a heading; if a cell holds the delimiter (a decimal comma?), put it in quotation marks.";
  if (row.cells.length > headings.length) return {
    code: "too-many-cells",
    at: `${file} line ${row.line}`,
    message: `expected ${headings.length} cells as in the headings, found ${row.cells.length}`,
    hint,
  };
  const stray = row.cells.findIndex((cell, index) => cell !== "" && headings[index] === "");
  if (stray < 0) return null;
  return {
    code: "cell-without-heading",
    at: `${file} line ${row.line}`,
    message: `expected every cell under a heading, found ${show(row.cells[stray])} in column ${stray + 1}, which has none`,
    hint,
  };
}
