import type { Finding } from "../core/finding.ts";

/** What one column of a file holds, row by row. */
export type ColumnValues =
  /** NaN = missing; the array belongs to whoever asked for it */
  | { readonly kind: "numbers"; readonly values: Float64Array }
  /** text or mixed cells; null = empty */
  | { readonly kind: "cells"; readonly cells: readonly (number | string | null)[] }
  /** nanoseconds since 1970-01-01; `zoned` = in UTC, else as a clock on some wall showed them; null = missing */
  | { readonly kind: "stamps"; readonly ns: readonly (bigint | null)[]; readonly zoned: boolean }
  /** since midnight; NaN = missing. A workbook's are days, and may as well be durations */
  | { readonly kind: "daytimes"; readonly values: Float64Array; readonly unit: "d" | "ns" };

/** One column of a file that keeps named columns; its values are read when they are wanted. */
export interface LogColumn {
  /** within its part */
  readonly name: string;
  readonly unit: string | null;
  readonly rows: number;
  /** for people: "64-bit float", "text", "time stamp in UTC" */
  readonly type: string;
  /** why it cannot be read as a column; null = it can */
  readonly obstacle: string | null;
  /** a gain the file states beside the column; null = none */
  readonly storedGain: { readonly gain: number; readonly offset: number } | null;
  values(): ColumnValues | Promise<ColumnValues>;
}

/** A sheet, a group, a topic. */
export interface LogPart {
  readonly name: string;
  readonly columns: readonly LogColumn[];
  /** for logs of messages: the clocks they were stamped by */
  readonly clocks: Readonly<Partial<Record<"header" | "log" | "publish", LogColumn>>>;
  /** a row as a message shows it: "row 12", "message 12" */
  readonly rowName: (row: number) => string;
  /** what stands above this part's rows */
  readonly metadata?: readonly (readonly [string, string])[];
  /** said to whoever inspects the file, and to whoever reads this part */
  readonly findings: readonly Finding[];
}

/** A file that keeps named columns in parts. */
export interface ColumnLog {
  readonly format: string;
  readonly partWord: "sheet" | "group" | "topic" | "table";
  /** parts with a slash between their names and their columns' */
  readonly partMark: "/" | ".";
  /** whether columns of different parts may share their rows: datasets of an HDF5 file do, topics do not */
  readonly joined: boolean;
  readonly parts: readonly LogPart[];
  readonly metadata: readonly (readonly [string, string])[];
  readonly evidence: readonly string[];
  readonly findings: readonly Finding[];
  /** frees what values() needs */
  readonly close?: () => void;
}

export function plainColumn(column: Pick<LogColumn, "name" | "unit" | "rows" | "type" | "values"> & Partial<LogColumn>): LogColumn {
  return { obstacle: null, storedGain: null, ...column };
}
