import Papa from "papaparse";
import { InputError } from "../../core/errors.ts";
import type { Issue } from "../../core/errors.ts";
import type { ReadOptions } from "../contract.ts";
import { shown } from "../shown.ts";

/** Readings row by row, as they stand in the file; NaN where a mark for a missing value stands. */
export interface Grid {
  readonly rows: number;
  readonly columns: number;
  readonly values: Float64Array;
  /** what it was taken for */
  readonly format: string;
}

/** A matrix of numbers as text: delimiter and decimal mark as declared, nothing above or beside the numbers. @throws InputError with every cell that is no number, twenty at most */
export function textGrid(bytes: Uint8Array, fileName: string, options: ReadOptions): Grid {
  const { delimiter = ",", decimal = ".", encoding = "utf-8" } = options;
  const text = new TextDecoder(encoding).decode(bytes).replace(/^\ufeff/, "");
  const lines = Papa.parse<string[]>(text, { delimiter, skipEmptyLines: "greedy" }).data;
  const columns = lines[0]?.length ?? 0;
  const issues: Issue[] = [];
  const values = new Float64Array(lines.length * columns);
  lines.forEach((cells, row) => {
    const at = `${fileName} row ${row + 1}`;
    if (cells.length !== columns) issues.push({ code: "uneven-rows", at, message: `expected ${columns} cells as in the first row, found ${cells.length}`, hint: "Check the declared delimiter, and that the file holds the matrix alone" });
    cells.slice(0, columns).forEach((cell, column) => {
      const value = numberOf(cell.trim(), decimal, options.missing);
      if (value === null) issues.push({ code: "bad-number", at: `${at}, cell ${column + 1}`, message: `expected a number with a decimal "${decimal}", found ${shown(cell)}`, hint: "Take headings and edges off the matrix, or correct decimal: or missing: in rig.yaml" });
      else values[row * columns + column] = value;
    });
  });
  if (lines.length < 3 || columns < 3) issues.unshift({ code: "no-grid", at: fileName, message: `expected a matrix of at least 3 rows and 3 columns, found ${lines.length} × ${columns}`, hint: `Check the declared delimiter ${shown(delimiter)}` });
  if (issues.length > 0) throw new InputError(issues.slice(0, 20));
  return { rows: lines.length, columns, values, format: `matrix of ${lines.length} × ${columns} numbers; delimiter ${shown(delimiter)}; decimal ${shown(decimal)}` };
}

function numberOf(cell: string, decimal: string, missing: readonly string[]): number | null {
  if (missing.includes(cell)) return Number.NaN;
  const plain = decimal === "," ? cell.replace(",", ".") : cell;
  return /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(plain) && !(decimal === "," && cell.includes(".")) ? Number(plain) : null;
}
