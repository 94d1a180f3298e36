import { createHash } from "node:crypto";
import { InputError } from "../core/errors.ts";
import type { Issue } from "../core/errors.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Importer, RawColumn, RawTable, ReadOptions } from "./contract.ts";
import { chooseReading } from "./chooseReading.ts";
import { decode } from "./decode.ts";
import { delimiterName } from "./dialect.ts";
import { headingLines, metadataOf, repeatedLine } from "./preamble.ts";
import { numericRows } from "./numericRows.ts";
import type { Rows } from "./numericRows.ts";
import { marksOf } from "./oddCell.ts";
import { serialTime } from "./serialTime.ts";
import { columnTimes, rateTimes, stampTimes } from "./times.ts";
import { datedStamps } from "./datedStamps.ts";
import type { RowStamps } from "./datedStamps.ts";
import { unitChange } from "./unitChange.ts";

/** Text logs: one row a sample, cells between delimiters, headings above. */
export const delimitedText: Omit<Importer, "read"> & { read(bytes: Uint8Array, fileName: string, options: ReadOptions): RawTable } = {
  format: "delimited text",
  contents: null,
  sniff(head, fileName) {
    return "bytes" in decode(head, fileName);
  },
  read(bytes, fileName, options) {
    return readTable(bytes, fileName, options);
  },
};

function readTable(bytes: Uint8Array, fileName: string, options: ReadOptions): RawTable {
  if (bytes.length === 0) throw new InputError([{ code: "empty-file", at: fileName, message: "expected a log, found an empty file", hint: "Copy the log again, or exclude the run in runs.csv" }]);
  const file = decode(bytes, fileName, options.encoding);
  if (!("bytes" in file)) throw new InputError([file]);
  const choice = chooseReading(file, fileName, options);
  const { reading, wanted, timeColumn } = choice;
  const clock = options.clock;
  const stamps = datedStamps(clock, choice, file, fileName);
  const slots = new Int32Array(reading.headings.length).fill(-1);
  const slotNames: string[] = [];
  const take = (column: number, name: string): number => {
    if (slots[column] === -1) slots[column] = slotNames.push(name) - 1;
    return slots[column] as number;
  };
  const wantedSlots = wanted.map(({ name, column }) => take(column, name));
  const requiredSlot = (clock.kind === "elapsed" || clock.kind === "serial") && timeColumn !== null ? take(timeColumn, clock.column) : -1;
  if (stamps !== null && timeColumn !== null) {
    slots[timeColumn] = -2;
    if (choice.dateColumn !== null) slots[Math.min(timeColumn, choice.dateColumn)] = -3;
    if (choice.dateColumn !== null) slots[Math.max(timeColumn, choice.dateColumn)] = -2;
  }
  const rows = numericRows({
    bytes: file.bytes,
    text: file.text,
    fileName,
    firstByte: reading.firstRowByte < 0 ? file.bytes.length : reading.firstRowByte,
    firstLine: reading.firstRowLine,
    delimiter: reading.delimiter === null ? 0 : reading.delimiter.charCodeAt(0),
    decimal: (choice.decimal ?? ".").charCodeAt(0),
    headings: reading.headings.map((heading) => heading.written),
    slots,
    slotNames,
    requiredSlot,
    stamp: stamps?.read ?? null,
    firstHalf: stamps?.firstHalf ?? null,
    stampProblem: stamps?.problem ?? (() => ""),
    marks: marksOf(options.missing, options.overload, choice.decimal ?? ".", options.thousands ?? null),
    isRepeated: repeatedLine(reading),
    unitChange: unitChange(reading, [...wanted.map(({ column }) => column), ...(timeColumn === null ? [] : [timeColumn])], fileName),
  });
  const issues = [...rows.issues, ...rowIssues(rows, fileName, options)];
  if (issues.length > 0) throw new InputError(issues);
  const serial = clock.kind === "serial" ? serialTime(rows.columns[requiredSlot] as Float64Array, clock, `${fileName} line ${reading.firstRowLine}, column "${clock.column}"`) : null;
  if (serial !== null && serial.issues.length > 0) throw new InputError(serial.issues);
  const timesS = serial !== null ? serial.timesS : clock.kind === "rate" ? rateTimes(rows.count, clock.rateHz) : clock.kind === "elapsed" ? columnTimes(rows.columns[requiredSlot] as Float64Array, clock.unit) : stampTimes(rows.stamps as Float64Array);
  const refused = rows.repeatedLines.length + (rows.cutLine === null ? 0 : 1);
  return {
    timesS,
    startedAt: serial?.startedAt ?? stamps?.startedAt() ?? null,
    columns: wanted.map(({ name, column }, index): RawColumn => {
      const slot = wantedSlots[index] as number;
      return { name, unit: reading.headings[column]?.unit ?? null, samples: rows.columns[slot] as Float64Array, overloaded: rows.overloaded[slot] as readonly number[] };
    }),
    metadata: metadataOf(reading),
    evidence: [file.evidence, ...choice.evidence],
    source: {
      file: fileName,
      sha256: createHash("sha256").update(bytes).digest("hex"),
      format: `delimited text; ${delimiterName(reading.delimiter)}; ${choice.decimal === null ? "whole numbers" : choice.decimal === "," ? "decimal comma" : "decimal point"}; ${file.encoding.toUpperCase()}`,
      bytes: bytes.length,
      rowsRead: rows.count,
      rowsRefused: refused,
    },
    findings: rowFindings(rows, fileName, stamps),
  };
}

/** What makes the whole file unusable, beside single cells. */
function rowIssues(rows: Rows, fileName: string, options: ReadOptions): Issue[] {
  const issues: Issue[] = [];
  const more = rows.issueCount - rows.issues.length;
  if (more > 0) issues.push({ code: "more-issues", at: fileName, message: `expected a clean log, found ${more} more faults like these`, hint: "Repair the log or its description in rig.yaml" });
  if (rows.issueCount > 0) return issues;
  const cut = rows.cutLine === null ? "" : ", the last line being cut";
  if (rows.count === 0) issues.push({ code: "no-rows", at: fileName, message: `expected rows of numbers below the heading line, found none${cut}`, hint: "Copy the log again, or exclude the run in runs.csv" });
  if (rows.count === 1) issues.push({ code: "one-row", at: fileName, message: `expected at least two rows, found one${cut}`, hint: "Copy the log again, or exclude the run in runs.csv" });
  // Without time stamps the rows themselves count the time, so a hole of unknown length makes every later time wrong.
  const hole = rows.repeatedLines[0] ?? rows.blankLine;
  if (options.clock.kind === "rate" && hole !== null && hole !== undefined) issues.push({ code: "hole-without-time", at: `${fileName} line ${hole}`, message: "expected one unbroken block of rows, since the log has no time column, found a repeated heading or a blank line", hint: "Keep the block that belongs to the run, and remove the rest" });
  return issues;
}

function rowFindings(rows: Rows, fileName: string, stamps: RowStamps | null): Finding[] {
  const findings: Finding[] = [];
  const [first] = rows.repeatedLines;
  if (first !== undefined) findings.push(finding("repeated-heading", "look", `${fileName}: ${headingLines(rows.repeatedLines.length)} again among the rows, first in line ${first}; the logger was probably restarted. The lines were skipped, the rows kept.`));
  const midnights = stamps?.midnights() ?? 0;
  if (midnights > 0) findings.push(finding("midnight-passed", "note", `${fileName}: the time of day fell back ${midnights === 1 ? "once" : `${midnights} times`}, which was taken for midnight, since the stamps carry no date.`));
  if (rows.cutLine !== null) findings.push(finding("cut-last-line", "note", `${fileName} line ${rows.cutLine}: the file ends inside this line, so its last number may be cut. The line was not used.`));
  return findings;
}
