import { DataType, RecordBatchReader, tableFromIPC } from "apache-arrow";
import type { Data, Field, Table, Vector } from "apache-arrow";
import { plainColumn } from "../columnLog.ts";
import type { ColumnLog, ColumnValues, LogColumn } from "../columnLog.ts";
import { columnImporter } from "../columnTable.ts";
import { heading } from "../headings.ts";
import { isArrow } from "../signatures.ts";
import { unitOfField } from "./fieldUnits.ts";

const mostRows = 2 ** 27;
// The library compares every column with the others: 100,000 take minutes.
const mostColumns = 20_000;

type Holds = "stamps" | "dates" | "daytimes" | "cells" | "numbers";

/** Arrow IPC, as a file or as a stream: flat columns of numbers, texts and time stamps, units in the fields' metadata. */
export const arrowIpc = columnImporter("Arrow IPC", isArrow, (bytes) => openArrow(bytes));

function openArrow(bytes: Uint8Array): ColumnLog {
  const reader = RecordBatchReader.from(bytes).open();
  if (reader.schema.fields.length > mostColumns) throw new Error(`more than ${mostColumns} columns`);
  const table = tableFromIPC(reader);
  // Even a switch takes a bit a row.
  if (!Number.isSafeInteger(table.numRows) || table.numRows < 0 || table.numRows > Math.min(mostRows, bytes.length * 8)) throw new Error(`${table.numRows} rows in ${bytes.length} bytes`);
  return {
    format: "Arrow IPC",
    partWord: "table",
    partMark: "/",
    joined: false,
    parts: [{ name: "", columns: table.schema.fields.map((field, index) => columnOf(field, table, index)), clocks: {}, rowName: (row) => `row ${row + 1}`, findings: [] }],
    metadata: [...table.schema.metadata].filter(([, value]) => value.length < 1000),
    evidence: [`Arrow IPC: ${table.numRows} rows in ${table.batches.length} batch${table.batches.length === 1 ? "" : "es"}`],
    findings: [],
  };
}

function columnOf(field: Field, table: Table, index: number): LogColumn {
  const type = field.type as DataType;
  const holds = DataType.isTimestamp(type) ? "stamps" : DataType.isDate(type) ? "dates" : DataType.isTime(type) ? "daytimes" : DataType.isUtf8(type) || DataType.isLargeUtf8(type) || (DataType.isDictionary(type) && DataType.isUtf8(type.dictionary)) ? "cells" : DataType.isInt(type) || DataType.isFloat(type) || DataType.isBool(type) ? "numbers" : null;
  return plainColumn({
    name: field.name,
    unit: unitOfField(field) ?? heading(field.name).unit,
    rows: table.numRows,
    type: String(type),
    obstacle: holds === null ? `values of the type ${String(type).slice(0, 60)}` : null,
    values: () => valuesOf(table.getChildAt(index) as Vector, type, table.numRows, holds),
  });
}

function valuesOf(vector: Vector, type: DataType, rows: number, holds: Holds | null): ColumnValues {
  if (vector.length !== rows || vector.data.some((chunk) => !isFilled(chunk, holds))) throw new Error(`fewer values than the ${rows} rows stated`);
  if (holds === "stamps") return stampsOf(vector, type as DataType & { readonly unit: number; readonly timezone?: string | null });
  if (holds === "dates") return { kind: "stamps", zoned: false, ns: counts(vector, (type as DataType & { readonly unit: number }).unit === 0 ? 86_400_000_000_000n : 1_000_000n) };
  if (holds === "daytimes") return { kind: "daytimes", unit: "ns", values: Float64Array.from(counts(vector, scaleOf(type as DataType & { readonly unit: number })), (ns) => (ns === null ? Number.NaN : Number(ns))) };
  if (holds === "cells") return { kind: "cells", cells: Array.from(vector as Iterable<unknown>, (value) => (value === null ? null : String(value))) };
  const values = new Float64Array(rows);
  let row = 0;
  for (const value of vector as Iterable<number | bigint | boolean | null>) values[row++] = value === null ? Number.NaN : exact(value);
  return { kind: "numbers", values };
}

/** Whether a batch's buffers hold as many values as it states. */
function isFilled({ length, values, valueOffsets, type }: Data, holds: Holds | null): boolean {
  if (DataType.isBool(type)) return (values as Uint8Array).length * 8 >= length;
  if (holds === "cells" && !DataType.isDictionary(type)) return (valueOffsets as ArrayLike<unknown>).length > length;
  return (values as ArrayLike<unknown>).length >= length;
}

function stampsOf(vector: Vector, type: { readonly unit: number; readonly timezone?: string | null }): ColumnValues {
  return { kind: "stamps", ns: counts(vector, scaleOf(type)), zoned: type.timezone !== undefined && type.timezone !== null && type.timezone !== "" };
}

/** Nanoseconds of one count: of seconds, milliseconds, microseconds or nanoseconds. */
function scaleOf({ unit }: { readonly unit: number }): bigint {
  const scale = [1_000_000_000n, 1_000_000n, 1000n, 1n][unit];
  if (scale === undefined) throw new Error(`times of the unknown unit ${unit}`);
  return scale;
}

/** Whole counts since 1970, or since midnight, in nanoseconds. */
function counts(vector: Vector, scale: bigint): (bigint | null)[] {
  const ns: (bigint | null)[] = [];
  for (const chunk of vector.data) {
    const values = chunk.values as BigInt64Array | Int32Array;
    for (let i = 0; i < chunk.length; i++) ns.push(chunk.getValid(i) ? BigInt(values[i] as bigint | number) * scale : null);
  }
  return ns;
}

function exact(value: number | bigint | boolean): number {
  if (typeof value === "bigint" && (value > 9_007_199_254_740_992n || value < -9_007_199_254_740_992n)) throw new Error(`the whole number ${value} is too large to be held exactly`);
  return Number(value);
}
