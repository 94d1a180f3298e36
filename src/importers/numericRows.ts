import type { Issue } from "../core/errors.ts";
import { plainNumber, quotedEnd, readOddCell } from "./oddCell.ts";
import type { Marks } from "./oddCell.ts";
import { closingQuote, lineEnds, swallowsRow } from "./quotedLines.ts";
import { roomFor, widen } from "./rowRoom.ts";
import { shown } from "./shown.ts";

/** What the byte loop needs to know about a file. */
export interface RowPlan {
  readonly bytes: Uint8Array;
  readonly text: (from: number, to: number) => string;
  readonly fileName: string;
  readonly firstByte: number;
  /** rows that start here or later are left to the next piece; not given = none are */
  readonly rowsBefore?: number;
  readonly firstLine: number;
  /** 0 = a single column */
  readonly delimiter: number;
  readonly decimal: number;
  readonly headings: readonly string[];
  /** per column of the file: slot of a number, -1 skip, -2 time stamp, -3 the first of two cells of a stamp */
  readonly slots: Int32Array;
  readonly slotNames: readonly string[];
  /** slot that must hold a number in every row: elapsed time */
  readonly requiredSlot: number;
  /** nanoseconds, NaN if unreadable; the reason then stands in stampProblem() */
  readonly stamp: ((from: number, to: number) => number) | null;
  readonly firstHalf?: ((from: number, to: number) => void) | null;
  readonly stampProblem: () => string;
  readonly marks: Marks;
  /** whether a row that is no data stands there on purpose: a repeated heading, unit or preamble line */
  readonly isRepeated: (line: string) => boolean;
  /** the same for a head that says another unit */
  readonly unitChange?: (line: string, at: number) => Issue | "harmless" | null;
}

export interface Rows {
  readonly count: number;
  readonly columns: readonly Float64Array[];
  readonly stamps: Float64Array | null;
  /** [slot][n] = row of the n-th overload mark */
  readonly overloaded: readonly (readonly number[])[];
  readonly issues: readonly Issue[];
  readonly issueCount: number;
  readonly repeatedLines: readonly number[];
  /** first blank line that has rows below it */
  readonly blankLine: number | null;
  /** first of the blank lines that no row stands below */
  readonly openBlank: number | null;
  /** where the line after the last one read starts, and its number */
  readonly nextByte: number;
  readonly nextLine: number;
  /** the last line, where the bytes end inside it */
  readonly cutLine: number | null;
}

const LF = 10;
const CR = 13;
const SPACE = 32;
const QUOTE = 34;
const mostIssues = 20;
/** cells of one row that may run over a line's end */
const mostJoins = 20;
/** A line is looked at this far when it is no row; a damaged file can hold one of any length. */
const mostText = 65_536;
/** Below 2^53 every whole number is exact, and so is every power of ten up to 10^22: one division is then correctly rounded. */
const exactLimit = 2 ** 53;
const powers = Float64Array.from({ length: 23 }, (_, n) => Number(`1e${n}`));

/** Reads the rows straight from the bytes into columns of numbers; no text is made unless a cell is odd. */
export function numericRows(plan: RowPlan, room = roomFor(plan)): Rows {
  const { bytes, delimiter, decimal, slots, stamp } = plan;
  const columnCount = slots.length;
  const { requiredSlot } = plan;
  const markedByNumbers = plan.marks.hasNumbers;
  const end = completeEnd(bytes, plan.firstByte);
  const stop = Math.min(end, plan.rowsBefore ?? end);
  const { columns } = room;
  const overloaded: number[][] = plan.slotNames.map(() => []);
  const issues: Issue[] = [];
  const repeatedLines: number[] = [];
  let issueCount = 0;
  let blank: number | null = null;
  let blankLine: number | null = null;
  let row = 0;
  let line = plan.firstLine - 1;
  let p = plan.firstByte;
  let openFrom = -1;
  let openTo = -1;
  /** cells of the row in hand that end in a later line: byte of the opening mark → byte behind the closing one */
  const joins = new Map<number, number>();
  const odd = { next: 0, value: 0, kind: "number" as "number" | "missing" | "overload" | "text" };
  let pending: Issue[] = [];

  while (p < stop) {
    line++;
    const rowStart = p;
    let column = 0;
    if (bytes[p] === LF || bytes[p] === CR) {
      blank ??= line;
      p += bytes[p] === CR && bytes[p + 1] === LF ? 2 : 1;
      continue;
    }
    if (row === room.capacity) widen(room);
    for (;;) {
      const slot = column < columnCount ? (slots[column] as number) : -1;
      let b = bytes[p] as number;
      while (b === SPACE) b = bytes[++p] as number;
      if (slot >= 0) {
        const cellStart = p;
        let negative = false;
        if (b === 45) {
          negative = true;
          b = bytes[++p] as number;
        } else if (b === 43) b = bytes[++p] as number;
        let mantissa = 0;
        let scale = 0;
        const digitsStart = p;
        let digits = 0;
        while (b >= 48 && b <= 57) {
          mantissa = mantissa * 10 + (b - 48);
          b = bytes[++p] as number;
        }
        digits = p - digitsStart;
        if (b === decimal) {
          const fractionStart = p + 1;
          b = bytes[++p] as number;
          while (b >= 48 && b <= 57) {
            mantissa = mantissa * 10 + (b - 48);
            b = bytes[++p] as number;
          }
          scale = fractionStart - p;
          digits -= scale;
        }
        if ((b === 101 || b === 69) && digits > 0) {
          let sign = 1;
          b = bytes[++p] as number;
          if (b === 45) {
            sign = -1;
            b = bytes[++p] as number;
          } else if (b === 43) b = bytes[++p] as number;
          const exponentStart = p;
          let exponent = 0;
          while (b >= 48 && b <= 57) {
            exponent = exponent * 10 + (b - 48);
            b = bytes[++p] as number;
          }
          if (p === exponentStart) digits = 0;
          scale += sign * exponent;
        }
        if (delimiter !== SPACE) while (b === SPACE) b = bytes[++p] as number;
        const target = columns[slot] as Float64Array;
        if (digits > 0 && mantissa < exactLimit && scale >= -22 && scale <= 22 && (b === delimiter || b === LF || b === CR)) {
          const size = scale < 0 ? mantissa / (powers[-scale] as number) : mantissa * (powers[scale] as number);
          target[row] = negative ? -size : size;
          if (markedByNumbers) {
            const kind = plan.marks.numberKind(target[row] as number);
            if (kind === "overload") (overloaded[slot] as number[]).push(row);
            if (kind !== "number") target[row] = Number.NaN;
          }
        } else {
          readOddCell(plan, cellStart, odd);
          p = odd.next;
          target[row] = odd.value;
          if (odd.kind === "overload") (overloaded[slot] as number[]).push(row);
          else if (odd.kind === "text") pending.push(cellIssue(plan, line, slot, cellStart, p));
        }
        if (slot === requiredSlot && Number.isNaN(target[row]) && odd.kind !== "text") pending.push(timeIssue(plan, line, plan.slotNames[slot] as string, `expected a time, found ${shown(plan.text(cellStart, p))}`));
        odd.kind = "number";
      } else {
        const cellStart = p;
        if (b === QUOTE) {
          p = joins.size > 0 ? (joins.get(cellStart) ?? quotedEnd(bytes, p)) : quotedEnd(bytes, p);
          if (bytes[p] === LF || bytes[p] === CR) {
            const close = closingQuote(bytes, cellStart, delimiter, end);
            if (close !== null && close > p) {
              openFrom = cellStart;
              openTo = close + 1;
            }
          }
        }
        b = bytes[p] as number;
        while (b !== delimiter && b !== LF && b !== CR) b = bytes[++p] as number;
        if (slot === -3) plan.firstHalf?.(cellStart, p);
        else if (slot === -2 && stamp !== null) {
          const moment = stamp(cellStart, p);
          (room.stamps as Float64Array)[row] = moment;
          if (Number.isNaN(moment)) pending.push(timeIssue(plan, line, plan.headings[column] as string, `${shown(plan.text(cellStart, p))} ${plan.stampProblem()}`));
        }
      }
      column++;
      if (bytes[p] !== delimiter) break;
      p++;
    }
    const rowEnd = p;
    if (openFrom >= 0) {
      if (swallowsRow(bytes, openFrom, openTo, delimiter, columnCount)) {
        if (issues.length < mostIssues) issues.push({ code: "open-quote", at: `${plan.fileName} line ${line}`, message: "expected a quoted cell to end, found one whose closing mark stands in a later line, behind what could be a row of its own", hint: "Close or remove the quotation mark in the log" });
        issueCount++;
      } else if (joins.size < mostJoins) {
        joins.set(openFrom, openTo);
        openFrom = -1;
        pending = [];
        p = rowStart;
        line--;
        continue;
      }
      openFrom = -1;
    }
    const rowLine = line;
    if (joins.size > 0) {
      for (const [from, to] of joins) line += lineEnds(bytes, from, to);
      joins.clear();
    }
    const fits = column === columnCount || (column === columnCount + 1 && endsEmpty(bytes, rowEnd, delimiter)) || (column === columnCount - 1 && plan.headings[columnCount - 1] === "");
    p += bytes[p] === CR && bytes[p + 1] === LF ? 2 : 1;
    if (fits && pending.length === 0) {
      if (blank !== null) {
        blankLine ??= blank;
        blank = null;
      }
      row++;
      continue;
    }
    const text = plan.text(rowStart, Math.min(rowEnd, rowStart + mostText));
    const change = plan.unitChange?.(text, rowLine) ?? null;
    if (isBlank(text, delimiter)) blank ??= rowLine;
    else if (change === "harmless" || (change === null && plan.isRepeated(text))) repeatedLines.push(rowLine);
    else {
      const found: Issue[] = change !== null ? [change] : fits ? pending : [{ code: "cells", at: `${plan.fileName} line ${rowLine}`, message: `expected ${columnCount} cells, found ${column}`, hint: "Repair the log, or declare delimiter: and decimal: in rig.yaml" }];
      issueCount += found.length;
      issues.push(...found.slice(0, Math.max(0, mostIssues - issues.length)));
      // The row keeps its place, so that a person who inspects the log sees where it stands; the reader refuses the file.
      if (fits) row++;
    }
    pending = [];
  }
  return {
    count: row,
    columns: columns.map((values) => values.subarray(0, row)),
    stamps: room.stamps === null ? null : room.stamps.subarray(0, row),
    // A skipped line may have left marks on the row that the next line then took.
    overloaded: overloaded.map((rows) => [...new Set(rows)].filter((index) => index < row)),
    issues,
    issueCount,
    repeatedLines,
    blankLine,
    openBlank: blank,
    nextByte: p,
    nextLine: line + 1,
    cutLine: end < bytes.length && plan.text(end, Math.min(bytes.length, end + mostText)).trim() !== "" ? line + 1 : null,
  };
}

function cellIssue(plan: RowPlan, line: number, slot: number, from: number, to: number): Issue {
  const cell = plan.text(from, to);
  const otherMark = plan.decimal === 44 ? "." : ",";
  const hint = plainNumber(cell.trim(), otherMark) === null ? "Declare it as a missing or overload mark in rig.yaml, or repair the log" : "Declare decimal: for this logger in rig.yaml, or repair the log";
  return { code: "text-in-number", at: `${plan.fileName} line ${line}, column "${plan.slotNames[slot]}"`, message: `expected a number, found ${shown(cell)}`, hint };
}

function timeIssue(plan: RowPlan, line: number, column: string, message: string): Issue {
  return { code: "unreadable-time", at: `${plan.fileName} line ${line}, column "${column}"`, message, hint: "Correct clock: in rig.yaml, or repair the log" };
}

/** Spreadsheets write a cleared row as delimiters alone. */
function isBlank(text: string, delimiter: number): boolean {
  return text.replaceAll(String.fromCharCode(delimiter), "").trim() === "";
}

function endsEmpty(bytes: Uint8Array, rowEnd: number, delimiter: number): boolean {
  let last = rowEnd - 1;
  while (delimiter !== SPACE && bytes[last] === SPACE) last--;
  return bytes[last] === delimiter;
}

/** End of the last line that has a line end: beyond it nobody can say whether the last number is whole. */
function completeEnd(bytes: Uint8Array, from: number): number {
  let end = bytes.length;
  while (end > from && bytes[end - 1] !== LF && bytes[end - 1] !== CR) end--;
  return end;
}
