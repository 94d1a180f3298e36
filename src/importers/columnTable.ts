import { createHash } from "node:crypto";
import { InputError, UsageError } from "../core/errors.ts";
import type { Issue } from "../core/errors.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import { mostColumnBytes } from "../core/unpacked.ts";
import { chooseColumns } from "./chooseColumns.ts";
import type { ChosenColumn } from "./chooseColumns.ts";
import { CellIssues, numberColumn } from "./columnCells.ts";
import { columnContents } from "./columnContents.ts";
import type { ColumnLog, ColumnValues, LogPart } from "./columnLog.ts";
import { apartTime, messageTime, storedTime, writtenTime } from "./columnTime.ts";
import type { ColumnTime } from "./columnTime.ts";
import type { Importer, RawColumn, RawTable, ReadOptions } from "./contract.ts";
import { marksOf } from "./oddCell.ts";
import { serialTime } from "./serialTime.ts";
import { shown } from "./shown.ts";
import { columnTimes, rateTimes } from "./times.ts";
import { toldDate } from "./toldDate.ts";
import type { ToldDate } from "./toldDate.ts";

/** `options` are null for an inspection, which knows no description yet. */
type Open = (bytes: Uint8Array, fileName: string, options: ReadOptions | null) => ColumnLog | Promise<ColumnLog>;

/** An importer for a format that keeps named columns, from what opens its files. */
export function columnImporter(format: string, sniff: Importer["sniff"], open: Open): Importer {
  const opened = (bytes: Uint8Array, fileName: string, options: ReadOptions | null): Promise<ColumnLog> => {
    if (bytes.length === 0) throw new InputError([{ code: "empty-file", at: fileName, message: "expected a log, found an empty file", hint: "Copy the log again, or exclude the run in runs.csv" }]);
    return undamaged(format, fileName, () => open(bytes, fileName, options));
  };
  return {
    format,
    sniff,
    read: async (bytes, fileName, options) => {
      const log = await opened(bytes, fileName, options);
      try {
        return await readTable(log, format, bytes, fileName, options);
      } finally {
        log.close?.();
      }
    },
    contents: async (bytes, fileName) => {
      const log = await opened(bytes, fileName, null);
      try {
        return await columnContents(log, bytes, fileName);
      } finally {
        log.close?.();
      }
    },
  };
}

/** What a library says of broken bytes becomes an issue with its file. */
async function undamaged<T>(format: string, fileName: string, work: () => T | Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof InputError || error instanceof UsageError) throw error;
    throw new InputError([{ code: "damaged-file", at: fileName, message: `expected a whole ${format} file, found one that cannot be read: ${shown(error instanceof Error ? error.message : String(error), 160)}`, hint: "Copy the log again, or exclude the run in runs.csv" }]);
  }
}

async function readTable(log: ColumnLog, format: string, bytes: Uint8Array, fileName: string, options: ReadOptions): Promise<RawTable> {
  const { wanted, time, date } = chooseColumns(log, fileName, options);
  const refused = [...unfitOptions(log, fileName, options), ...lengthIssues(fileName, wanted, time, date), ...roomIssues(fileName, bytes.length, [...wanted, time, date].filter((one) => one !== null)), ...gainIssues(fileName, wanted, options)];
  if (refused.length > 0) throw new InputError(refused);
  const marks = marksOf(options.missing, options.overload, ".");
  const issues = new CellIssues();
  const valuesOf = (chosen: ChosenColumn): Promise<ColumnValues> => undamaged(format, fileName, () => chosen.column.values());
  const columns: RawColumn[] = [];
  for (const chosen of wanted) {
    const { samples, overloaded } = numberColumn(chosen, await valuesOf(chosen), marks, fileName, issues);
    columns.push({ name: chosen.name, unit: chosen.column.unit, samples: gained(samples, chosen, options), overloaded });
  }
  const rows = (time ?? wanted[0])?.column.rows ?? 0;
  const parts = [...new Set([...wanted, ...[time, date].filter((one) => one !== null)].map(({ part }) => part))];
  const metadata = [...log.metadata, ...parts.flatMap((part) => part.metadata ?? [])];
  const told = time === null ? null : toldDate(options.clock.kind === "wall" || options.clock.kind === "stamp" ? options.clock : {}, time.name, date === null ? null : { chosen: date, values: await valuesOf(date) }, metadata, fileName);
  const { timesS, startedAt } = await timeOf(time, told, rows, fileName, options, issues, valuesOf);
  const all = [...issues.shown, ...wholeIssues(issues, rows, fileName)];
  if (all.length > 0) throw new InputError(all);
  return {
    timesS,
    startedAt,
    columns,
    metadata,
    evidence: [...log.evidence, ...partEvidence(log, parts), ...wanted.flatMap((chosen) => gainEvidence(chosen, options))],
    source: { file: fileName, sha256: createHash("sha256").update(bytes).digest("hex"), format: log.format, bytes: bytes.length, rowsRead: rows, rowsRefused: 0 },
    findings: [...log.findings, ...parts.flatMap((part) => part.findings), ...gainFindings(fileName, wanted, options)],
  };
}

async function timeOf(time: ChosenColumn | null, date: ToldDate | null, rows: number, fileName: string, options: ReadOptions, issues: CellIssues, valuesOf: (chosen: ChosenColumn) => Promise<ColumnValues>): Promise<ColumnTime> {
  const { clock } = options;
  if (clock.kind === "rate" || time === null) return { timesS: rateTimes(rows, clock.kind === "rate" ? clock.rateHz : Number.NaN), startedAt: null };
  const values = await valuesOf(time);
  if (clock.kind === "wall" || clock.kind === "iso") return writtenTime(clock, time, values, date, fileName, issues);
  if (clock.kind === "stamp") return date !== null ? apartTime(clock, time, values, date, fileName, issues) : storedTime(clock, time, values, fileName, issues);
  if (clock.kind === "message") return messageTime(clock, time, values as Extract<ColumnValues, { kind: "stamps" }>, fileName, issues);
  const before = issues.count;
  const { samples } = numberColumn(time, values, marksOf([], [], "."), fileName, issues);
  if (issues.count === before) samples.forEach((value, row) => {
    if (Number.isNaN(value)) issues.add({ code: "unreadable-time", at: `${fileName} ${time.part.rowName(row)}, column "${time.name}"`, message: "expected a time, found an empty cell", hint: "Correct clock: in rig.yaml, or repair the log" });
  });
  if (clock.kind !== "serial") return { timesS: columnTimes(samples, clock.unit), startedAt: null };
  const serial = serialTime(samples, clock, `${fileName}, column "${time.name}"`);
  if (issues.count === before) serial.issues.forEach((issue) => issues.add(issue));
  return serial;
}

/** What may be declared for text logs only. */
function unfitOptions(log: ColumnLog, fileName: string, options: ReadOptions): Issue[] {
  if (options.headerLine === 0) return [{ code: "not-a-text-log", at: fileName, message: `expected a text log, since headerLine: 0 is declared, found ${log.format}`, hint: "Correct the logger in rig.yaml, or check that this is the right log" }];
  const lines = log.partWord === "sheet" ? [] : (["headerLine", "unitLine"] as const);
  return (["encoding", "delimiter", "decimal", "thousands", ...lines] as const)
    .filter((key) => options[key] !== undefined)
    .map((key) => ({ code: "not-a-text-log", at: fileName, message: `expected a text log, since ${key}: is declared, found ${log.format}`, hint: `Remove ${key}: in rig.yaml, or check that this is the right log` }));
}

function lengthIssues(fileName: string, wanted: readonly ChosenColumn[], ...clocks: readonly (ChosenColumn | null)[]): Issue[] {
  const lengths = [...clocks.filter((one) => one !== null), ...wanted].map(({ name, column }) => [name, column.rows] as const);
  if (new Set(lengths.map(([, rows]) => rows)).size <= 1) return [];
  return [{ code: "unequal-length", at: fileName, message: `expected columns of one length, found ${lengths.map(([name, rows]) => `${rows} rows of ${shown(name)}`).join(", ")}`, hint: "Describe columns that were sampled apart as loggers of their own, each with its clock, in rig.yaml" }];
}

/** A few kilobytes can state any number of rows; told before room is made for them. */
function roomIssues(fileName: string, fileBytes: number, asked: readonly ChosenColumn[]): Issue[] {
  const wanted = asked.reduce((sum, { column }) => sum + 8 * column.rows, 0);
  const most = mostColumnBytes(fileBytes);
  if (wanted <= most) return [];
  const longest = asked.reduce((a, b) => (b.column.rows > a.column.rows ? b : a));
  return [{ code: "unpacks-too-far", at: `${fileName}, column "${longest.name}"`, message: `expected the columns asked for to fill at most ${megabytes(most)} (64 MB and 100 times the file, at most 1 GiB, or 24 times the file), found ${megabytes(wanted)}: ${longest.column.rows.toLocaleString("en")} rows in a file of ${megabytes(fileBytes)}`, hint: "Copy the log again, or export it unpacked or as text" }];
}

function megabytes(bytes: number): string {
  return bytes < 1e6 ? `${Math.ceil(bytes / 1000)} kB` : `${Math.round(bytes / 1e6).toLocaleString("en")} MB`;
}

/** What makes the whole file unusable, beside single cells. */
function wholeIssues(issues: CellIssues, rows: number, fileName: string): Issue[] {
  const more = issues.count - issues.shown.length;
  if (more > 0) return [{ code: "more-issues", at: fileName, message: `expected a clean log, found ${more} more faults like these`, hint: "Repair the log or its description in rig.yaml" }];
  if (issues.count > 0 || rows > 1) return [];
  return [{ code: rows === 0 ? "no-rows" : "one-row", at: fileName, message: `expected at least two rows, found ${rows === 0 ? "none" : "one"}`, hint: "Copy the log again, or exclude the run in runs.csv" }];
}

function gainIssues(fileName: string, wanted: readonly ChosenColumn[], options: ReadOptions): Issue[] {
  if (options.storedGain !== undefined) return [];
  return wanted.flatMap(({ name, column }) => (column.storedGain === null ? [] : [{ code: "stored-gain", at: `${fileName}, column "${name}"`, message: `expected to be told what the gain ${column.storedGain.gain} (offset ${column.storedGain.offset}) that the file states beside this column is for, found no storedGain: in rig.yaml`, hint: "Declare storedGain: multiply (reading × gain + offset), divide ((reading − offset) / gain) or ignore (the calibration in rig.yaml holds for the bare numbers)" }]));
}

function gained(samples: Float64Array, { column }: ChosenColumn, options: ReadOptions): Float64Array {
  if (column.storedGain === null || options.storedGain === "ignore") return samples;
  const { gain, offset } = column.storedGain;
  return options.storedGain === "divide" ? samples.map((value) => (value - offset) / gain) : samples.map((value) => value * gain + offset);
}

function gainEvidence({ name, column }: ChosenColumn, options: ReadOptions): string[] {
  if (column.storedGain === null) return [];
  const { gain, offset } = column.storedGain;
  return [`column "${name}": the file's gain ${gain} and offset ${offset}: ${options.storedGain === "multiply" ? "multiplied" : options.storedGain === "divide" ? "divided by" : "ignored"}, as declared`];
}

function gainFindings(fileName: string, wanted: readonly ChosenColumn[], options: ReadOptions): Finding[] {
  if (options.storedGain === undefined || wanted.some(({ column }) => column.storedGain !== null)) return [];
  return [finding("no-stored-gain", "note", `${fileName}: storedGain: ${options.storedGain} is declared in rig.yaml, but the file states no gain beside these columns`)];
}

function partEvidence(log: ColumnLog, parts: readonly LogPart[]): string[] {
  return parts.filter((part) => part.name !== "").map((part) => `${log.partWord} ${shown(part.name)}: ${part.columns.length} column${part.columns.length === 1 ? "" : "s"}`);
}
