import { InputError } from "../core/errors.ts";
import type { Issue } from "../core/errors.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Source } from "../core/provenance.ts";
import type { RawColumn, RawTable, ReadOptions } from "./contract.ts";
import type { Encoding } from "./decode.ts";
import { delimiterName } from "./dialect.ts";
import type { Rows } from "./numericRows.ts";
import { headingLines, metadataOf } from "./preamble.ts";
import { rowSlots } from "./rowReader.ts";
import type { TextLog } from "./rowReader.ts";
import { serialTime } from "./serialTime.ts";
import { columnTimes, rateTimes, stampTimes } from "./times.ts";

/** The file as a whole. */
export interface TextFile {
  readonly bytes: number;
  readonly sha256: string;
  readonly encoding: Encoding;
  readonly evidence: string;
}

/** All rows of a log and what was found among them. */
export interface LogRows extends Omit<Rows, "openBlank" | "nextByte" | "nextLine"> {
  /** moment of the first stamp; null where the clock has none */
  readonly startedAt: string | null;
  readonly midnights: number;
}

/** The table of a text log. @throws InputError with what makes its rows unusable */
export function textTable(log: TextLog, rows: LogRows, file: TextFile): RawTable {
  const { choice, options, fileName } = log;
  const { reading } = choice;
  const { clock } = options;
  const issues = rowIssues(rows, fileName, options);
  if (issues.length > 0) throw new InputError(issues);
  const slots = rowSlots(log);
  const numbers = (slot: number): Float64Array => rows.columns[slot] as Float64Array;
  const serial = clock.kind === "serial" ? serialTime(numbers(slots.time), clock, `${fileName} line ${reading.firstRowLine}, column "${clock.column}"`) : null;
  if (serial !== null && serial.issues.length > 0) throw new InputError(serial.issues);
  const timesS = serial !== null ? serial.timesS : clock.kind === "rate" ? rateTimes(rows.count, clock.rateHz) : clock.kind === "elapsed" ? columnTimes(numbers(slots.time), clock.unit) : stampTimes(rows.stamps as Float64Array);
  return {
    timesS,
    startedAt: serial?.startedAt ?? rows.startedAt,
    columns: choice.wanted.map(({ name, column }, index): RawColumn => {
      const slot = slots.wanted[index] as number;
      return { name, unit: reading.headings[column]?.unit ?? null, samples: numbers(slot), overloaded: rows.overloaded[slot] as readonly number[] };
    }),
    metadata: metadataOf(reading),
    evidence: [file.evidence, ...choice.evidence],
    source: textSource(log, rows, file),
    findings: rowFindings(rows, fileName),
  };
}

/** Where the rows came from. */
export function textSource({ choice, fileName }: TextLog, rows: Pick<LogRows, "count" | "repeatedLines" | "cutLine">, file: TextFile): Source {
  return {
    file: fileName,
    sha256: file.sha256,
    format: `delimited text; ${delimiterName(choice.reading.delimiter)}; ${choice.decimal === null ? "whole numbers" : choice.decimal === "," ? "decimal comma" : "decimal point"}; ${file.encoding.toUpperCase()}`,
    bytes: file.bytes,
    rowsRead: rows.count,
    rowsRefused: rows.repeatedLines.length + (rows.cutLine === null ? 0 : 1),
  };
}

/** What makes the log unusable: single cells, and then the file as a whole. */
export function rowIssues(rows: Pick<LogRows, "count" | "issues" | "issueCount" | "cutLine" | "repeatedLines" | "blankLine">, fileName: string, options: ReadOptions): Issue[] {
  const issues: Issue[] = [...rows.issues];
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

/** What a person should know of the rows. */
export function rowFindings(rows: Pick<LogRows, "repeatedLines" | "midnights" | "cutLine">, fileName: string): Finding[] {
  const findings: Finding[] = [];
  const [first] = rows.repeatedLines;
  if (first !== undefined) findings.push(finding("repeated-heading", "look", `${fileName}: ${headingLines(rows.repeatedLines.length)} again among the rows, first in line ${first}; the logger was probably restarted. The lines were skipped, the rows kept.`));
  if (rows.midnights > 0) findings.push(finding("midnight-passed", "note", `${fileName}: the time of day fell back ${rows.midnights === 1 ? "once" : `${rows.midnights} times`}, which was taken for midnight, since the stamps carry no date.`));
  if (rows.cutLine !== null) findings.push(finding("cut-last-line", "note", `${fileName} line ${rows.cutLine}: the file ends inside this line, so its last number may be cut. The line was not used.`));
  return findings;
}
