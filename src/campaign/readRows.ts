import type { z } from "zod";
import type { Issue } from "../core/errors.ts";
import { convert, unitKind, unitsOfKind } from "../core/units.ts";
import type { FreeColumns } from "./campaign.ts";
import { unitLike } from "./checkChannels.ts";
import { list, nearest, show } from "./nearest.ts";
import { readNumber } from "./numberCell.ts";
import { plainWords } from "./plainWords.ts";
import { columnUnit, required } from "./rowSchemas.ts";
import { cellPlace } from "./sheet.ts";
import type { Sheet, SheetColumn, SheetRow } from "./sheet.ts";

/** One row: every cell that passed its check; what did not pass is absent and named by an issue. */
export interface Row<T> {
  readonly line: number;
  readonly values: Partial<T>;
  readonly more: FreeColumns;
  /** names of columns whose cell did not pass */
  readonly failed: ReadonlySet<string>;
  /** mistakes in the columns drawbar uses; the row cannot be relied on */
  readonly issues: readonly Issue[];
}

export interface Rows<T> {
  readonly rows: readonly Row<T>[];
  /** columns missing or of the wrong unit: the table cannot be understood */
  readonly issues: readonly Issue[];
  /** mistakes that touch free columns only */
  readonly remarks: readonly Issue[];
}

/** Cells that nobody uses need not all be named. */
const mostRemarks = 1000;

/** Checks a table column by column against the schema of its rows. */
export function readRows<S extends z.ZodObject>(sheet: Sheet, schema: S): Rows<z.output<S>> {
  const names = Object.keys(schema.shape);
  const free = sheet.columns.filter((column) => !names.includes(column.name));
  const used = sheet.columns.filter((column) => names.includes(column.name));
  const remarks: Issue[] = [];
  for (const column of free) {
    const guess = nearest(column.name, names.filter((name) => !used.some((candidate) => candidate.name === name)));
    if (guess !== null) remarks.push({
      code: "near-heading",
      at: `${sheet.file}, column "${column.heading}"`,
      message: `expected a heading drawbar knows or one unlike them, found "${column.name}", which is near ${guess}`,
      hint: `Its cells are carried along unused. Rename it to ${guess} if that is meant, else to something further off.`,
    });
    if (column.bracket !== null && column.unit === null) remarks.push({
      code: "unknown-unit",
      at: `${sheet.file}, column "${column.heading}"`,
      message: `expected a unit drawbar knows in the brackets, found ${show(column.bracket)}`,
      hint: "Its cells are carried along as text. Correct the unit ([1] for a pure number), or use other brackets.",
    });
  }
  const rows = sheet.rows.map((row): Row<z.output<S>> => {
    const issues: Issue[] = row.issue === null ? [] : [row.issue];
    const values: Record<string, unknown> = {};
    const failed = new Set<string>();
    for (const column of used) {
      const before = issues.length;
      const value = readCell(sheet, row, column, schema.shape[column.name] as z.ZodType, issues);
      if (value !== undefined) values[column.name] = value;
      if (issues.length > before) failed.add(column.name);
    }
    return { line: row.line, values: values as Partial<z.output<S>>, more: readFree(sheet, row, free, remarks), failed, issues };
  });
  return { rows, issues: [...missingColumns(sheet, schema, free), ...used.flatMap((column) => wrongUnit(sheet, column, schema.shape[column.name] as z.ZodType))], remarks };
}

function missingColumns(sheet: Sheet, schema: z.ZodObject, free: readonly SheetColumn[]): Issue[] {
  return Object.entries(schema.shape)
    .filter(([name, column]) => required(column) === column && !sheet.columns.some((candidate) => candidate.name === name))
    .map(([name, column]) => {
      const unit = columnUnit(column);
      const heading = unit === null ? name : `${name} [${unit}]`;
      const guess = nearest(name, free.map((candidate) => candidate.name));
      return {
        code: "missing-column",
        at: sheet.file,
        message: `expected a column "${heading}", found ${list(sheet.columns.map((candidate) => candidate.heading), 30)}`,
        hint: guess === null ? "Add the column." : `Is "${guess}" meant? Rename it.`,
      };
    });
}

function wrongUnit(sheet: Sheet, column: SheetColumn, schema: z.ZodType): Issue[] {
  const at = `${sheet.file}, column "${column.heading}"`;
  const wanted = columnUnit(schema);
  if (wanted === null) {
    if (column.bracket === null || column.unit === "1" || column.unit === "count") return [];
    return [{ code: "needless-unit", at, message: `expected "${column.name}" without a unit, found [${column.bracket}]`, hint: "Take the brackets out of the heading." }];
  }
  const example = `Write the unit in brackets, e.g. "${column.name} [${wanted}]".`;
  if (column.bracket === null) return [{ code: "missing-unit", at, message: `expected ${unitLike(wanted)} in brackets, found a bare heading`, hint: example }];
  if (column.unit === null) {
    const guess = nearest(column.bracket, unitsOfKind(unitKind(wanted)));
    return [{ code: "unknown-unit", at, message: `expected ${unitLike(wanted)}, found ${show(column.bracket)}`, hint: guess === null ? example : `Did you mean ${guess}?` }];
  }
  if (unitKind(column.unit) !== unitKind(wanted)) return [{
    code: "wrong-dimension",
    at,
    message: `expected ${unitLike(wanted)}, found ${column.unit} (${unitKind(column.unit)})`,
    hint: unitKind(column.unit) === "mass" && unitKind(wanted) === "force" ? `A mass is no force. Write [kgf], [gf], [lbf] or [ozf] if the numbers mean weights at standard gravity; else multiply them by the laboratory's gravity and write [${wanted}].` : example,
  }];
  return [];
}

function readCell(sheet: Sheet, row: SheetRow, column: SheetColumn, schema: z.ZodType, issues: Issue[]): unknown {
  const cell = row.cells[column.index] ?? "";
  const at = cellPlace(sheet, row.line, column);
  const unit = columnUnit(schema);
  const inner = required(schema);
  const shownUnit = unit !== null && column.unit !== null && unitKind(column.unit) === unitKind(unit) ? column.unit : null;
  if (unit !== null && shownUnit === null && cell !== "") return undefined; // the heading has its own issue
  let value: unknown = cell === "" ? undefined : cell;
  if (cell !== "" && inner._zod.def.type === "number") {
    const number = numberAt(sheet, row, column, cell);
    if (!("value" in number)) {
      issues.push({ code: "bad-number", at, ...number });
      return undefined;
    }
    value = unit === null || shownUnit === null ? number.value : convert(number.value, shownUnit, unit);
  }
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const about = schema.description ?? "";
  for (const issue of result.error.issues) {
    if (issue.code === "invalid_format" && column.name === "run") issues.push({
      code: "bad-run-id",
      at,
      message: `expected letters, digits, . _ - (at most 64, first a letter or digit, no full stop at the end), found ${show(cell)}`,
      hint: "Rename the run and its log files; the id becomes part of file names.",
    });
    else issues.push({ at, ...plainWords(inUnit(issue, unit, shownUnit), cell === "" ? undefined : cell, about) });
  }
  return undefined;
}

/** A workbook holds numbers as such; elsewhere the cell's text is read. */
function numberAt(sheet: Sheet, row: SheetRow, column: SheetColumn, cell: string): ReturnType<typeof readNumber> {
  const value = row.numbers?.[column.index];
  return value === undefined ? readNumber(cell, sheet.marks) : { value };
}

/** A limit as the sheet's writer sees it: in the heading's unit. */
function inUnit(issue: z.core.$ZodIssue, unit: ReturnType<typeof columnUnit>, shown: ReturnType<typeof columnUnit>): z.core.$ZodIssue {
  if (unit === null || shown === null) return issue;
  if (issue.code === "too_small") return { ...issue, minimum: tidy(convert(Number(issue.minimum), unit, shown)) };
  if (issue.code === "too_big") return { ...issue, maximum: tidy(convert(Number(issue.maximum), unit, shown)) };
  return issue;
}

const tidy = (value: number) => Number(value.toPrecision(12));

function readFree(sheet: Sheet, row: SheetRow, columns: readonly SheetColumn[], remarks: Issue[]): FreeColumns {
  const entries = columns.flatMap((column): [string, FreeColumns[string]][] => {
    const cell = row.cells[column.index] ?? "";
    if (cell === "") return [];
    if (column.unit === null) return [[column.name, { text: cell }]];
    const number = numberAt(sheet, row, column, cell);
    if ("value" in number) return [[column.name, { value: number.value, unit: column.unit }]];
    if (remarks.length < mostRemarks) remarks.push({ code: "bad-number", at: cellPlace(sheet, row.line, column), ...number });
    return [[column.name, { text: cell }]];
  });
  return Object.fromEntries(entries);
}
