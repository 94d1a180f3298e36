import { decimalMark } from "./decimalMark.ts";
import type { DecimalVerdict } from "./decimalMark.ts";
import { bareUnit, columnsNamed, headingsOf, isUnitRow } from "./headings.ts";
import type { Heading } from "./headings.ts";
import { splitLines } from "./lines.ts";
import type { Glance, Lines } from "./lines.ts";

export type Delimiter = "," | ";" | "\t" | "|" | " ";

/** One way to read the file that its bytes allow. Lines are counted from 1. */
export interface Reading {
  /** null = a single column */
  readonly delimiter: Delimiter | null;
  readonly headings: readonly Heading[];
  readonly headerLine: number;
  readonly unitLine: number | null;
  readonly firstRowLine: number;
  readonly firstRowByte: number;
  /** share of the rows looked at that have as many cells as the heading line */
  readonly fitting: number;
  /** cells of the rows looked at, for evidence */
  readonly sample: readonly (readonly string[])[];
  /** lines before the heading line, as they stand */
  readonly preamble: readonly string[];
  /** heading and unit line as they stand */
  readonly headerText: string;
  readonly unitText: string | null;
}

/** What the caller declared. */
export interface Declared {
  /** columns that must be there; none = find the heading line by its shape */
  readonly columns: readonly string[];
  /** null = a single column */
  readonly delimiter?: Delimiter | null | undefined;
  readonly headerLine?: number | undefined;
  readonly unitLine?: number | undefined;
}

const delimiters: readonly Delimiter[] = ["\t", ";", ",", "|", " "];
const sampleRows = 200;
/** Rows may differ (text, restarts, a cut end), but most must have as many cells as the heading line. */
const leastFitting = 0.5;

/** Every delimiter under which a heading line stands over rows of as many cells. */
export function readings({ head: lines, later }: Glance, declared: Declared): { readonly fit: readonly Reading[]; readonly misfit: readonly Reading[] } {
  const asked = declared.delimiter === undefined ? delimiters.filter((one) => lines.text.some((line) => line.includes(one))) : [declared.delimiter];
  const all = asked.map((one) => reading(lines, later, one, declared)).filter((one) => one !== null);
  let fit = all.filter((one) => (one.headings.length > 1 || declared.delimiter !== undefined) && one.fitting >= leastFitting);
  // Blanks stand inside headings and stamps of every other kind of file; they separate columns only where nothing else does.
  if (fit.some((one) => one.delimiter !== " ")) fit = fit.filter((one) => one.delimiter !== " ");
  if (fit.length === 0 && declared.delimiter === undefined) {
    const single = reading(lines, later, null, declared);
    if (single !== null && single.fitting >= leastFitting) fit = [single];
  }
  return { fit, misfit: all.filter((one) => !fit.includes(one)) };
}

function reading(lines: Lines, later: readonly string[], delimiter: Delimiter | null, declared: Declared): Reading | null {
  // Splitting is the costly part, so only the lines that are looked at are split.
  const cellsOf = (index: number): string[] => splitLines(lines.text.slice(index, index + 1), delimiter)[0] ?? [];
  if (declared.headerLine === 0) return headless(lines, later, delimiter, declared);
  const header = declared.headerLine !== undefined ? declared.headerLine - 1 : declared.columns.length > 0 ? namedHeader(lines.text, declared.columns, cellsOf) : shapedHeader(splitLines(lines.text, delimiter));
  if (lines.text[header] === undefined) return null;
  const headings = headingsOf(cellsOf(header));
  const below = nextFilled(lines.text, header + 1);
  const unitRow = declared.unitLine !== undefined ? declared.unitLine - 1 : below < lines.text.length && isUnitRow(cellsOf(below), headings) ? below : null;
  const units = unitRow === null ? undefined : cellsOf(unitRow);
  const first = Math.max(header, unitRow ?? 0) + 1;
  const rows = splitLines([...lines.text.slice(first, first + sampleRows), ...later], delimiter).filter((row) => row.some((cell) => cell !== ""));
  return {
    delimiter,
    headings: headings.map((one, index) => ({ ...one, unit: one.unit ?? (bareUnit(units?.[index] ?? "") || null) })),
    headerLine: header + 1,
    unitLine: unitRow === null ? null : unitRow + 1,
    firstRowLine: first + 1,
    firstRowByte: lines.starts[first] ?? -1,
    fitting: rows.length === 0 ? 1 : rows.filter((row) => fits(row, headings)).length / rows.length,
    sample: rows,
    preamble: lines.text.slice(0, header),
    headerText: lines.text[header] as string,
    unitText: unitRow === null ? null : (lines.text[unitRow] ?? null),
  };
}

/** Without a heading line the columns are told by their place: #1, #2 … from the left, as many as most rows have. */
function headless(lines: Lines, later: readonly string[], delimiter: Delimiter | null, declared: Declared): Reading | null {
  const unitRow = declared.unitLine === undefined ? null : declared.unitLine - 1;
  const first = unitRow === null ? 0 : unitRow + 1;
  const rows = splitLines([...lines.text.slice(first, first + sampleRows), ...later], delimiter).filter((row) => row.some((cell) => cell !== ""));
  const count = usualLength(rows.map((row) => (row.at(-1) === "" ? row.length - 1 : row.length)));
  const units = unitRow === null ? undefined : splitLines(lines.text.slice(unitRow, unitRow + 1), delimiter)[0];
  const headings = Array.from({ length: count }, (_, index): Heading => ({ name: `#${index + 1}`, written: `#${index + 1}`, unit: bareUnit(units?.[index] ?? "") || null }));
  return { delimiter, headings, headerLine: 0, unitLine: unitRow === null ? null : unitRow + 1, firstRowLine: first + 1, firstRowByte: lines.starts[first] ?? -1, fitting: rows.length === 0 ? 1 : rows.filter((row) => fits(row, headings)).length / rows.length, sample: rows, preamble: [], headerText: "", unitText: unitRow === null ? null : (lines.text[unitRow] ?? null) };
}

function usualLength(lengths: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const length of lengths) counts.set(length, (counts.get(length) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0] ?? 0;
}

/** As many cells as headings, a delimiter at the end of either line allowed. */
function fits(row: readonly string[], headings: readonly Heading[]): boolean {
  if (row.length === headings.length) return true;
  if (row.length === headings.length + 1) return row.at(-1) === "";
  return row.length === headings.length - 1 && headings.at(-1)?.written === "";
}

function namedHeader(lines: readonly string[], columns: readonly string[], cellsOf: (index: number) => string[]): number {
  const plain = columns.map(bare);
  return lines.findIndex((line, index) => {
    // A line that does not hold the words cannot be the heading line under any delimiter.
    const text = bare(line);
    if (!plain.every((column) => text.includes(column))) return false;
    const headings = headingsOf(cellsOf(index));
    return columns.every((column) => columnsNamed(headings, column).length > 0);
  });
}

/** Without blanks and quotes, which a delimiter may add or swallow. */
function bare(text: string): string {
  return text.replace(/[\s"]/g, "");
}

/** The first line of as many cells as most lines have, all of them words, with a line of numbers soon below. */
export function shapedHeader(cells: readonly (readonly string[])[]): number {
  const filledRows = cells.filter((row) => row.some((cell) => cell !== ""));
  const usual = usualLength(filledRows.slice(Math.floor(filledRows.length / 2)).map((row) => row.length));
  return cells.findIndex((row, index) => {
    if (Math.abs(row.length - usual) > 1 || (row.length !== usual && row.at(-1) !== "" && cells[index + 1]?.at(-1) !== "")) return false;
    const filled = row.filter((cell) => cell !== "");
    if (filled.length === 0 || filled.length < row.length - 1 || filled.some(hasNumber)) return false;
    if (filled.filter((cell) => /\p{L}/u.test(cell)).length * 2 < filled.length) return false;
    return cells.slice(index + 1, index + 4).some((below) => below.length === usual && below.some(hasNumber)) || index === cells.length - 1;
  });
}

function hasNumber(cell: string): boolean {
  return /^[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?$/.test(cell) || /^\d{1,4}[-./]\d{1,2}[-./]\d{1,4}/.test(cell);
}

function nextFilled(lines: readonly string[], from: number): number {
  let index = from;
  while (index < lines.length && (lines[index] as string).trim() === "") index++;
  return index;
}

/** The decimal mark of a reading, from the columns that matter first. `skip` holds time stamps, which have marks of their own. */
export function decimalOf(one: Reading, needed: readonly number[], skip: number | null): DecimalVerdict {
  const cells = (index: number): string[] => one.sample.map((row) => row[index] ?? "");
  const numeric = one.headings.map((_, index) => index).filter((index) => index !== skip);
  const columns = (which: (index: number) => boolean): Map<string, string[]> => new Map(numeric.filter(which).map((index) => [one.headings[index]?.written ?? "", cells(index)]));
  return decimalMark(columns((index) => needed.includes(index)), columns((index) => !needed.includes(index)), one.delimiter);
}

export function delimiterName(delimiter: Delimiter | null): string {
  if (delimiter === null) return "none, one column";
  return { ",": "comma", ";": "semicolon", "\t": "tab", "|": "bar", " ": "blanks" }[delimiter];
}

/** Why the columns are parted as they are. */
export function delimiterEvidence(one: Reading): string {
  if (one.delimiter === null) return "no delimiter: one column";
  const count = one.headings.length;
  return `delimiter ${delimiterName(one.delimiter)}: ${count} column${count === 1 ? "" : "s"} in the heading line and in ${Math.round(one.fitting * 100)} % of ${one.sample.length} rows looked at`;
}
