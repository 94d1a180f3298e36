import { ungrouped } from "./thousands.ts";
import type { Thousands } from "./thousands.ts";

/** Cells that stand for something other than a number. */
export interface Marks {
  readonly missing: ReadonlySet<string>;
  readonly overload: ReadonlySet<string>;
  /** marks written as numbers, like -9999, hold however the number is written */
  readonly hasNumbers: boolean;
  readonly numberKind: (value: number) => CellKind;
  readonly thousands: Thousands | null;
}

export type CellKind = "number" | "missing" | "overload" | "text";

export function marksOf(missing: readonly string[], overload: readonly string[], decimal: "." | ",", thousands: Thousands | null = null): Marks {
  const missingNumbers = new Set(missing.map((mark) => plainNumber(mark.trim(), decimal)).filter((value) => value !== null));
  const overloadNumbers = new Set(overload.map((mark) => plainNumber(mark.trim(), decimal)).filter((value) => value !== null));
  return {
    missing: new Set(missing.map((mark) => mark.trim())),
    overload: new Set(overload.map((mark) => mark.trim())),
    thousands,
    hasNumbers: missingNumbers.size + overloadNumbers.size > 0,
    numberKind: (value) => (overloadNumbers.has(value) ? "overload" : missingNumbers.has(value) ? "missing" : "number"),
  };
}

interface Rest {
  readonly bytes: Uint8Array;
  readonly text: (from: number, to: number) => string;
  readonly delimiter: number;
  readonly decimal: number;
  readonly marks: Marks;
}

/** A cell the fast path does not take: quoted, empty, a mark, text, or a number of very many digits. */
export function readOddCell(file: Rest, from: number, into: { next: number; value: number; kind: CellKind }): void {
  const { bytes, delimiter } = file;
  let next = bytes[from] === 34 ? quotedEnd(bytes, from) : from;
  while (bytes[next] !== delimiter && bytes[next] !== 10 && bytes[next] !== 13) next++;
  into.next = next;
  let cell = file.text(from, next).trim();
  if (cell.length >= 2 && cell.startsWith('"') && cell.endsWith('"')) cell = cell.slice(1, -1).replaceAll('""', '"').trim();
  into.value = Number.NaN;
  if (file.marks.overload.has(cell)) into.kind = "overload";
  else if (cell === "" || /^nan$/i.test(cell) || file.marks.missing.has(cell)) into.kind = "missing";
  else {
    const decimal = file.decimal === 44 ? "," : ".";
    const value = plainNumber(cell, decimal) ?? (file.marks.thousands === null ? null : plainNumber(ungrouped(cell, file.marks.thousands) ?? "", decimal));
    into.kind = value === null ? "text" : file.marks.numberKind(value);
    if (into.kind === "number") into.value = value as number;
  }
}

/** Decimal digits only: no hexadecimal, no words for infinity, and nothing so large that it would become infinite. */
export function plainNumber(cell: string, decimal: "." | ","): number | null {
  const plain = decimal === "," ? /^[+-]?(\d+(,\d*)?|,\d+)([eE][+-]?\d+)?$/ : /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/;
  if (!plain.test(cell)) return null;
  const value = Number(decimal === "," ? cell.replace(",", ".") : cell);
  return Number.isFinite(value) ? value : null;
}

/** Byte after the closing quote; the line's end where there is none. */
export function quotedEnd(bytes: Uint8Array, from: number): number {
  let p = from + 1;
  for (;;) {
    const b = bytes[p];
    if (b === undefined || b === 10 || b === 13) return p;
    if (b === 34 && bytes[p + 1] !== 34) return p + 1;
    p += b === 34 ? 2 : 1;
  }
}
