import { InputError } from "../../core/errors.ts";
import { cellText, percentOf } from "../../workbook/cellText.ts";
import type { Cell, WorkbookRow } from "../../workbook/sheetXml.ts";
import type { WorkbookSheet } from "../../workbook/workbook.ts";
import { plainColumn } from "../columnLog.ts";
import type { ColumnValues, LogColumn } from "../columnLog.ts";
import type { ReadOptions } from "../contract.ts";
import { shapedHeader } from "../dialect.ts";
import { bareUnit, columnsNamed, headingsOf, isUnitRow } from "../headings.ts";
import type { Heading } from "../headings.ts";
import { metadataOf } from "../preamble.ts";

/** A sheet as a table: headings over rows. */
export interface SheetTable {
  readonly columns: readonly LogColumn[];
  readonly metadata: readonly (readonly [string, string])[];
  readonly rowName: (row: number) => string;
  /** number of the first row below the headings */
  readonly firstRow: number;
  /** a blank row that has rows below it */
  readonly blankRow: number | null;
}

const headRows = 200;

export function sheetTable(sheet: WorkbookSheet, fileName: string, options: ReadOptions | null): SheetTable {
  const head = sheet.rows.slice(0, headRows);
  const width = Math.max(0, ...head.map((row) => row.cells.length));
  const textsOf = (row: WorkbookRow): string[] => Array.from({ length: width }, (_, index) => cellText(row.cells[index]));
  const texts = head.map(textsOf);
  const header = headerIndex(sheet.rows, texts, options);
  const headings = header < 0 ? [] : headingsOf(texts[header] ?? textsOf(sheet.rows[header] as WorkbookRow));
  const unitAt = header < 0 ? -1 : options?.unitLine !== undefined ? sheet.rows.findIndex((row) => row.number === options.unitLine) : isUnitRow(texts[header + 1] ?? [], headings) ? header + 1 : -1;
  const units = unitAt < 0 ? [] : textsOf(sheet.rows[unitAt] as WorkbookRow);
  const used = headings.flatMap((heading, index) => (heading.written === "" ? [] : [index]));
  const rows = header < 0 ? [] : sheet.rows.slice(Math.max(header, unitAt) + 1).filter((row) => used.some((index) => row.cells[index] !== undefined));
  const gap = rows.findIndex((row, index) => index > 0 && row.number !== (rows[index - 1] as WorkbookRow).number + 1);
  const blankRow = gap < 0 ? null : (rows[gap - 1] as WorkbookRow).number + 1;
  // Without time stamps the rows themselves count the time, so a hole of unknown length makes every later time wrong.
  if (blankRow !== null && options?.clock.kind === "rate" && (options.part === undefined || options.part === sheet.name)) throw new InputError([{ code: "hole-without-time", at: `${fileName} row ${blankRow}`, message: "expected one unbroken block of rows, since the log has no time column, found a blank row", hint: "Keep the block that belongs to the run, and remove the rest" }]);
  const kinds = kindsOf(rows);
  return {
    columns: used.map((index) => columnOf(headings[index] as Heading, bareUnit(units[index] ?? "") || null, rows, index, kinds.get(index) ?? new Set())),
    metadata: texts.slice(0, Math.max(0, header)).flatMap((cells) => metadataOf({ preamble: [cells.filter((cell) => cell !== "").join("\t")], delimiter: "\t" })),
    rowName: (row) => `row ${rows[row]?.number ?? row + 1}`,
    firstRow: rows[0]?.number ?? Number.POSITIVE_INFINITY,
    blankRow,
  };
}

/** As declared, or the first row that names every column wanted, or the first that looks like headings. */
function headerIndex(rows: readonly WorkbookRow[], texts: readonly (readonly string[])[], options: ReadOptions | null): number {
  if (options?.headerLine !== undefined) return rows.findIndex((row) => row.number === options.headerLine);
  if (options === null) return shapedHeader(texts);
  const { clock } = options;
  const names = [...options.columns, ...("column" in clock ? [clock.column] : []), ...("dateColumn" in clock && clock.dateColumn !== undefined ? [clock.dateColumn] : [])];
  const named = texts.findIndex((cells) => {
    const headings = headingsOf(cells);
    return names.every((name) => columnsNamed(headings, name).length > 0);
  });
  return named >= 0 && names.length > 0 ? named : shapedHeader(texts);
}

type Kinds = ReadonlySet<Cell["kind"]>;

/** What each column holds, from the cells that are there: a sheet may be as wide as it is empty. */
function kindsOf(rows: readonly WorkbookRow[]): ReadonlyMap<number, Kinds> {
  const found = new Map<number, Set<Cell["kind"]>>();
  for (const row of rows) {
    row.cells.forEach((cell, index) => {
      if (cell === undefined) return;
      const kinds = found.get(index);
      if (kinds === undefined) found.set(index, new Set([cell.kind]));
      else kinds.add(cell.kind);
    });
  }
  return found;
}

function columnOf(heading: Heading, unitBelow: string | null, rows: readonly WorkbookRow[], index: number, kinds: Kinds): LogColumn {
  const percent = kinds.size === 1 && kinds.has("percent");
  const stated = heading.unit ?? unitBelow;
  return plainColumn({
    name: heading.written,
    // Numbers shown as per cent stand for themselves where the heading says so with its unit.
    unit: percent && stated === null ? "%" : stated,
    rows: rows.length,
    type: typeName(kinds),
    values: () => valuesOf(rows.map((row) => row.cells[index]), kinds, percent && (stated === null || stated === "%")),
  });
}

function typeName(kinds: Kinds): string {
  const words: Record<Cell["kind"], string> = { number: "numbers", percent: "numbers shown as per cent", date: "date cells", time: "times of day or durations, in days", text: "text", truth: "true and false", error: "faults", "formula without result": "formulas without results" };
  return [...kinds].map((kind) => words[kind]).join(", ") || "empty cells";
}

function valuesOf(cells: readonly (Cell | undefined)[], kinds: Kinds, asPercent: boolean): ColumnValues {
  if (kinds.size === 1 && kinds.has("date")) return { kind: "stamps", zoned: false, ns: cells.map((cell) => (cell?.kind === "date" ? BigInt(cell.ms) * 1_000_000n : null)) };
  if (kinds.size === 1 && kinds.has("time")) return { kind: "daytimes", unit: "d", values: Float64Array.from(cells, (cell) => (cell?.kind === "time" ? cell.days : Number.NaN)) };
  return {
    kind: "cells",
    cells: cells.map((cell) => {
      if (cell === undefined) return null;
      if (cell.kind === "number") return cell.value;
      if (cell.kind === "time") return cell.days;
      if (cell.kind === "truth") return cell.value ? 1 : 0;
      if (cell.kind === "percent" && kinds.size === 1) return asPercent ? percentOf(cell.value) : cell.value;
      return cellText(cell);
    }),
  };
}
