import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { InputError } from "../core/errors.ts";
import type { Issue } from "../core/errors.ts";
import { decode } from "./decode.ts";
import type { Decoded } from "./decode.ts";
import { decimalOf, delimiterEvidence, delimiterName, readings } from "./dialect.ts";
import type { Delimiter, Reading } from "./dialect.ts";
import { timeCandidates } from "./inspectTime.ts";
import { glanceAt, inMemory } from "./lines.ts";
import type { Glance } from "./lines.ts";
import { numericRows } from "./numericRows.ts";
import type { RowPlan, Rows } from "./numericRows.ts";
import { marksOf, plainNumber } from "./oddCell.ts";
import { headingLines, metadataOf, repeatedLine } from "./preamble.ts";
import type { TimeCandidate } from "./timeCandidate.ts";

export interface ColumnReport {
  readonly name: string;
  /** the heading as it stands in the file */
  readonly written: string;
  readonly unit: string | null;
  readonly kind: "number" | "text" | "empty";
  /** of the readable cells; null where there are none */
  readonly minimum: number | null;
  readonly maximum: number | null;
  /** cells without a number: empty, or text */
  readonly unread: number;
  /** a few cells that are text: marks to declare, or the column's words */
  readonly examples: readonly string[];
}

/** One way to read the log. More than one means that the bytes do not decide: declare what holds. */
export interface ReadingReport {
  readonly delimiter: Delimiter | null;
  readonly decimal: "." | "," | null;
  readonly headerLine: number;
  readonly unitLine: number | null;
  readonly rows: number;
  readonly columns: readonly ColumnReport[];
  readonly metadata: readonly (readonly [string, string])[];
  readonly timeCandidates: readonly TimeCandidate[];
  readonly evidence: readonly string[];
  /** broken rows, repeated headings, cut end */
  readonly remarks: readonly string[];
}

export interface LogInspection {
  readonly file: string;
  readonly bytes: number;
  readonly sha256: string;
  readonly encoding: string;
  readonly lineEnds: "LF" | "CRLF" | "CR" | "none";
  readonly readings: readonly ReadingReport[];
  /** why there is more than one reading, or none */
  readonly problems: readonly Issue[];
}

/** What a log is, with evidence and without a description. @throws InputError if it is empty, no text or cannot be opened */
export function inspectLog(path: string): LogInspection {
  return inspectBytes(openedFile(path), basename(path));
}

export function inspectBytes(bytes: Uint8Array, fileName: string): LogInspection {
  if (bytes.length === 0) throw new InputError([{ code: "empty-file", at: fileName, message: "expected a log, found an empty file", hint: "Copy the log again" }]);
  const file = decode(bytes, fileName);
  if (!("bytes" in file)) throw new InputError([file]);
  const glance = glanceAt(inMemory(file));
  const parted = readings(glance, { columns: [] }).fit;
  const found = [...parted, ...loneComma(glance, parted)];
  const problems: Issue[] = [];
  if (found.length === 0) problems.push({ code: "no-heading", at: fileName, message: "expected a heading line above rows of numbers, found none", hint: "Switch the heading line on in the logger, or declare headerLine: and delimiter: in rig.yaml" });
  if (found.length > 1) problems.push({ code: "ambiguous-delimiter", at: fileName, message: `expected one way to part the columns, found ${found.map((one) => delimiterName(one.delimiter)).join(" or ")}`, hint: "Declare delimiter: in rig.yaml" });
  const reports = found.flatMap((one) => {
    const decimal = decimalOf(one, one.headings.map((_, index) => index).filter((index) => mostlyNumbers(one, index)), null);
    if (decimal.conflict === null) return [report(file, fileName, one, decimal.mark, decimal.why)];
    problems.push({ code: decimal.conflict.code, at: `${fileName} from line ${one.firstRowLine}`, message: `expected one decimal mark, found ${decimal.conflict.found}`, hint: "Declare decimal: in rig.yaml, or export without thousands marks" });
    return ([".", ","] as const).map((mark) => report(file, fileName, one, mark, `decimal ${mark === "." ? "point" : "comma"}: one of two readings`));
  });
  return { file: fileName, bytes: bytes.length, sha256: createHash("sha256").update(bytes).digest("hex"), encoding: file.evidence, lineEnds: lineEnds(file.bytes), readings: reports, problems };
}

/** Two columns of whole numbers parted by a comma may as well be one column with a decimal comma. */
function loneComma(glance: Glance, parted: readonly Reading[]): Reading[] {
  const [only] = parted;
  if (parted.length !== 1 || only?.delimiter !== "," || only.headings.length !== 2) return [];
  if (!only.sample.every((row) => row.every((cell) => /^[+-]?\d*$/.test(cell)))) return [];
  return readings(glance, { columns: [], delimiter: null }).fit.slice();
}

/** The widest sense of a number: a reading's decimal mark is not known yet. */
function mostlyNumbers(one: Reading, column: number): boolean {
  const filled = one.sample.map((row) => row[column] ?? "").filter((cell) => cell !== "");
  return filled.length > 0 && filled.filter((cell) => /^[+-]?[.,']*\d[\d.,']*([eE][+-]?\d+)?$/.test(cell)).length * 2 >= filled.length;
}

function report(file: Decoded, fileName: string, one: Reading, decimal: "." | "," | null, why: string): ReadingReport {
  const slots = new Int32Array(one.headings.length).fill(-1);
  const slotNames: string[] = [];
  for (let column = 0; column < slots.length; column++) if (mostlyNumbers(one, column)) slots[column] = slotNames.push(one.headings[column]?.written ?? "") - 1;
  const plan: RowPlan = {
    bytes: file.bytes,
    text: file.text,
    fileName,
    firstByte: one.firstRowByte < 0 ? file.bytes.length : one.firstRowByte,
    firstLine: one.firstRowLine,
    delimiter: one.delimiter === null ? 0 : one.delimiter.charCodeAt(0),
    decimal: (decimal ?? ".").charCodeAt(0),
    headings: one.headings.map((heading) => heading.written),
    slots,
    slotNames,
    requiredSlot: -1,
    stamp: null,
    stampProblem: () => "",
    marks: marksOf([], [], decimal ?? "."),
    isRepeated: repeatedLine(one),
  };
  const rows = numericRows(plan);
  return {
    delimiter: one.delimiter,
    decimal,
    headerLine: one.headerLine,
    unitLine: one.unitLine,
    rows: rows.count,
    columns: one.headings.map((heading, column) => columnReport(heading, one.sample.map((row) => row[column] ?? ""), rows.columns[slots[column] as number], decimal ?? ".")),
    metadata: metadataOf(one),
    timeCandidates: timeCandidates(one, plan, rows),
    evidence: [
      delimiterEvidence(one),
      why,
      `heading line ${one.headerLine}: words above rows of numbers`,
      one.unitLine === null ? "no unit line below the headings" : `unit line ${one.unitLine}: names units and holds no numbers`,
    ],
    remarks: remarks(rows),
  };
}

function columnReport(heading: { readonly name: string; readonly written: string; readonly unit: string | null }, sample: readonly string[], values: Float64Array | undefined, decimal: "." | ","): ColumnReport {
  const words = [...new Set(sample.filter((cell) => cell !== "" && plainNumber(cell, decimal) === null))].slice(0, 3);
  const named = { name: heading.name, written: heading.written, unit: heading.unit };
  if (values === undefined) return { ...named, kind: words.length > 0 ? "text" : "empty", minimum: null, maximum: null, unread: 0, examples: words };
  let minimum = Infinity;
  let maximum = -Infinity;
  let unread = 0;
  for (const value of values) {
    if (Number.isNaN(value)) unread++;
    else {
      if (value < minimum) minimum = value;
      if (value > maximum) maximum = value;
    }
  }
  const some = unread < values.length;
  return { ...named, kind: "number", minimum: some ? minimum : null, maximum: some ? maximum : null, unread, examples: words };
}

function remarks(rows: Rows): string[] {
  const said = rows.issues.map((issue) => `${issue.at}: ${issue.message}`);
  if (rows.issueCount > rows.issues.length) said.push(`and ${rows.issueCount - rows.issues.length} more like these`);
  if (rows.repeatedLines.length > 0) said.push(`${headingLines(rows.repeatedLines.length)} again among the rows, first in line ${rows.repeatedLines[0]}`);
  if (rows.blankLine !== null) said.push(`blank line ${rows.blankLine} stands among the rows`);
  if (rows.cutLine !== null) said.push(`line ${rows.cutLine}: the file ends inside this line`);
  return said;
}

function lineEnds(bytes: Uint8Array): "LF" | "CRLF" | "CR" | "none" {
  const head = bytes.subarray(0, 65_536);
  const feed = head.indexOf(10);
  if (feed < 0) return head.includes(13) ? "CR" : "none";
  return feed > 0 && head[feed - 1] === 13 ? "CRLF" : "LF";
}

export function openedFile(path: string): Uint8Array {
  try {
    return readFileSync(path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? String(error);
    throw new InputError([{ code: "unreadable-file", at: path, message: `expected a readable file, found ${code === "ENOENT" ? "no file of that name" : code}`, hint: "Check the path" }]);
  }
}
