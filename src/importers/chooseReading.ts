import { InputError } from "../core/errors.ts";
import type { Issue } from "../core/errors.ts";
import type { ReadOptions } from "./contract.ts";
import { decimalOf, delimiterEvidence, delimiterName, readings } from "./dialect.ts";
import type { Reading } from "./dialect.ts";
import { columnsNamed } from "./headings.ts";
import type { Glance } from "./lines.ts";
import { shownNames } from "./shown.ts";
import { decimalBeside, ungrouped } from "./thousands.ts";

/** The one way to read a log, with its reasons. */
export interface Choice {
  readonly reading: Reading;
  readonly decimal: "." | "," | null;
  readonly wanted: readonly { readonly name: string; readonly column: number }[];
  readonly timeColumn: number | null;
  /** column of the date, where the time stands without one */
  readonly dateColumn: number | null;
  readonly evidence: readonly string[];
}

const declareHint = "Declare delimiter: and decimal: for this logger in rig.yaml";

/** The only reading that bytes and description allow. @throws InputError showing the readings, where there is none or more than one */
export function chooseReading(glance: Glance, fileName: string, options: ReadOptions): Choice {
  const names = [...new Set(options.columns)];
  const unfit = unfitOptions(fileName, options);
  if (unfit.length > 0) throw new InputError(unfit);
  const timeName = "column" in options.clock ? options.clock.column : null;
  const dateName = options.clock.kind === "wall" ? (options.clock.dateColumn ?? null) : null;
  const stampNames = [timeName, dateName].filter((name) => name !== null);
  const needed = [...new Set([...names, ...stampNames])];
  const found = readings(glance, { ...options, columns: needed });
  const missing = (one: Reading): string[] => needed.filter((name) => columnsNamed(one.headings, name).length === 0);
  const fit = found.fit.filter((one) => missing(one).length === 0);
  if (fit.length === 0) throw new InputError(noReading(glance, fileName, options, needed, found.misfit));
  if (fit.length > 1) throw new InputError([ambiguousDelimiter(fit, fileName)]);
  const reading = fit[0] as Reading;
  const at = placeOf(fileName, reading.headerLine);
  const doubles = needed.flatMap((name): Issue[] => {
    const columns = columnsNamed(reading.headings, name);
    if (columns.length === 1) return [];
    return [{ code: "duplicate-column", at, message: `expected one column "${name}", found ${columns.length} (columns ${columns.map((column) => column + 1).join(" and ")})`, hint: "Give the columns different headings in the logger, or name one with its unit in rig.yaml" }];
  });
  if (doubles.length > 0) throw new InputError(doubles);
  const column = (name: string): number => columnsNamed(reading.headings, name)[0] as number;
  const wanted = names.map((name) => ({ name, column: column(name) }));
  const timeColumn = timeName === null ? null : column(timeName);
  const dateColumn = dateName === null ? null : column(dateName);
  const stamped = options.clock.kind === "wall" || options.clock.kind === "iso";
  if (stamped && wanted.some((one) => one.column === timeColumn || one.column === dateColumn)) throw new InputError([{ code: "stamp-as-number", at, message: `expected a column of numbers, found ${stampNames.map((name) => `"${name}"`).join(" and ")}, which the clock reads as stamps`, hint: "Remove the channel that reads this column from rig.yaml" }]);
  const numeric = [...wanted.map((one) => one.column), ...(stamped || timeColumn === null ? [] : [timeColumn])];
  const { decimal, why } = decimalFor(reading, numeric, stamped ? timeColumn : null, fileName, options);
  return { reading, decimal, wanted, timeColumn, dateColumn, evidence: evidenceOf(reading, why, options) };
}

function placeOf(fileName: string, line: number): string {
  return line === 0 ? fileName : `${fileName} line ${line}`;
}

/** What may be declared for other formats only. */
function unfitOptions(fileName: string, options: ReadOptions): Issue[] {
  const issues: Issue[] = [];
  const { clock } = options;
  if (clock.kind === "stamp" || clock.kind === "message") issues.push({ code: "clock-not-in-text", at: fileName, message: `expected a clock that a text log can have, found kind: ${clock.kind}`, hint: "Declare clock: with kind elapsed, wall, iso or rate in rig.yaml" });
  if (options.thousands !== undefined && options.thousands === options.decimal) issues.push({ code: "one-mark-twice", at: fileName, message: `expected thousands: and decimal: to be different marks, found "${options.decimal}" for both`, hint: "Correct one of them in rig.yaml" });
  if (options.thousands === " " && options.delimiter === " ") issues.push({ code: "one-mark-twice", at: fileName, message: "expected thousands: and delimiter: to be different marks, found a blank for both", hint: "Correct one of them in rig.yaml" });
  if (options.part !== undefined) issues.push({ code: "no-parts", at: fileName, message: `expected a file with parts, since part: "${options.part}" is declared, found a text log`, hint: "Remove part: in rig.yaml, or check that this is the right log" });
  if (options.storedGain !== undefined) issues.push({ code: "no-stored-gain", at: fileName, message: "expected a file that can store gains, since storedGain: is declared, found a text log", hint: "Remove storedGain: in rig.yaml, or check that this is the right log" });
  return issues;
}

function decimalFor(reading: Reading, numeric: readonly number[], skip: number | null, fileName: string, options: ReadOptions): { readonly decimal: "." | "," | null; readonly why: string } {
  if (options.decimal !== undefined) return { decimal: options.decimal, why: `decimal ${options.decimal === "." ? "point" : "comma"}: declared` };
  const { thousands: mark } = options;
  const beside = mark === undefined ? null : decimalBeside(mark);
  if (beside !== null) return { decimal: beside, why: `decimal ${beside === "." ? "point" : "comma"}: the ${mark === "," ? "comma" : "point"} is declared as thousands mark` };
  const plain = mark === undefined ? reading : { ...reading, sample: reading.sample.map((row) => row.map((cell) => ungrouped(cell, mark) ?? cell)) };
  const verdict = decimalOf(plain, numeric, skip);
  if (verdict.conflict === null) return { decimal: verdict.mark, why: verdict.why };
  const thousands = verdict.conflict.code === "thousands-separator";
  const message = `expected ${thousands ? "plain decimals" : "one decimal mark"}, found ${verdict.conflict.found}`;
  throw new InputError([{ code: verdict.conflict.code, at: `${fileName} from line ${reading.firstRowLine}`, message, hint: thousands ? "Declare thousands: for this logger in rig.yaml, or export the log without thousands marks" : "Declare decimal: for this logger in rig.yaml" }]);
}

function evidenceOf(reading: Reading, decimal: string, options: ReadOptions): string[] {
  return [
    options.delimiter !== undefined ? `delimiter ${delimiterName(reading.delimiter)}: declared` : delimiterEvidence(reading),
    ...(options.thousands === undefined ? [] : [`thousands mark "${options.thousands}": declared`]),
    decimal,
    reading.headerLine === 0 ? `no heading line, as declared: ${reading.headings.length} columns, #1 to #${reading.headings.length}` : `heading line ${reading.headerLine}: ${options.headerLine !== undefined ? "declared" : "the first line that names every column wanted"}`,
    reading.unitLine === null ? "no unit line below the headings" : `unit line ${reading.unitLine}: ${options.unitLine !== undefined ? "declared" : "names units and holds no numbers"}`,
  ];
}

function ambiguousDelimiter(fit: readonly Reading[], fileName: string): Issue {
  const code = fit.some((one) => one.delimiter === ",") ? "ambiguous-decimal" : "ambiguous-delimiter";
  const ways = fit.map((one) => `${delimiterName(one.delimiter)} (${one.headings.length} columns: ${shownNames(one.headings.map((heading) => heading.written))})`);
  return { code, at: placeOf(fileName, fit[0]?.headerLine ?? 1), message: `expected one way to part the columns, found ${ways.join(" or ")}`, hint: declareHint };
}

/** Says what stands there instead of the wanted columns. */
function noReading(glance: Glance, fileName: string, options: ReadOptions, needed: readonly string[], misfit: readonly Reading[]): Issue[] {
  const uneven = misfit.find((one) => needed.every((name) => columnsNamed(one.headings, name).length > 0));
  if (uneven !== undefined) {
    const counts = [...new Set(uneven.sample.map((row) => row.length))].sort((a, b) => a - b).slice(0, 5).join(", ");
    const twofold = uneven.delimiter === "," ? "; the comma seems to be delimiter and decimal mark at once" : "";
    const code = uneven.delimiter === "," ? "ambiguous-decimal" : "cells";
    return [{ code, at: `${fileName} from line ${uneven.firstRowLine}`, message: `expected ${uneven.headings.length} cells in a row, as ${uneven.headerLine === 0 ? "most rows have" : `line ${uneven.headerLine} has headings`}, found ${counts}, parted by ${delimiterName(uneven.delimiter)}${twofold}`, hint: twofold === "" ? declareHint : "Export the log with another delimiter, or with a decimal point" }];
  }
  if (options.delimiter !== undefined) {
    const [other] = readings(glance, { ...options, columns: needed, delimiter: undefined }).fit;
    if (other !== undefined) return [{ code: "wrong-delimiter", at: placeOf(fileName, other.headerLine), message: `expected columns parted by ${delimiterName(options.delimiter)} as declared, found ${delimiterName(other.delimiter)}`, hint: "Correct or remove delimiter: in rig.yaml" }];
  }
  const shaped = readings(glance, { ...options, columns: [] });
  const there = (one: Reading): number => needed.filter((name) => columnsNamed(one.headings, name).length > 0).length;
  const best = [...shaped.fit, ...shaped.misfit].sort((a, b) => there(b) - there(a))[0];
  if (best === undefined) {
    const line = options.headerLine === undefined ? "" : ` in line ${options.headerLine}`;
    return [{ code: "no-heading", at: fileName, message: `expected a heading line with ${needed.map((name) => `"${name}"`).join(", ")}${line}, found none`, hint: "Switch the heading line on in the logger, or correct headerLine: and column: in rig.yaml (headerLine: 0 for a log without headings, its columns then being #1, #2 …)" }];
  }
  const columns = shownNames(best.headings.map((heading) => heading.written));
  return needed
    .filter((name) => columnsNamed(best.headings, name).length === 0)
    .map((name) => ({ code: "missing-column", at: placeOf(fileName, best.headerLine), message: `expected a column "${name}", found ${columns}`, hint: "Correct column: in rig.yaml, or check that this is the right log" }));
}
