import { parquetRead } from "hyparquet";
import type { AsyncBuffer, Compressors, FileMetaData, ParquetParsers } from "hyparquet";
import { compressors } from "hyparquet-compressors";
import type { ColumnValues } from "../columnLog.ts";
import { checkPages, mostPageBytes } from "./checkPages.ts";
import type { ColumnKind } from "./columnKind.ts";

const bounded: Compressors = Object.fromEntries(
  Object.entries(compressors).map(([codec, unpack]) => [
    codec,
    (input: Uint8Array, length: number): Uint8Array => {
      if (length < 0 || length > mostPageBytes) throw new Error(`a page of ${length} bytes, more than ${mostPageBytes}`);
      return unpack(input, length);
    },
  ]),
);

/** Time stamps stay whole nanoseconds. */
const parsers: Partial<ParquetParsers> = {
  timestampFromMilliseconds: (ms) => ms * 1_000_000n,
  timestampFromMicroseconds: (us) => us * 1000n,
  timestampFromNanoseconds: (ns) => ns,
  dateFromDays: (days) => BigInt(days) * 86_400_000_000_000n,
};

export function fileOf(bytes: Uint8Array): AsyncBuffer {
  return { byteLength: bytes.byteLength, slice: (from, to) => bytes.slice(from, to).buffer as ArrayBuffer };
}

/** One column; the library gives its groups of rows in any order, so each is put where its first row says. */
export async function readColumn(bytes: Uint8Array, metadata: FileMetaData, name: string, rows: number, kind: ColumnKind): Promise<ColumnValues> {
  const chunks: { readonly from: number; readonly values: ArrayLike<unknown> }[] = [];
  checkPages(bytes, metadata, name);
  // The library does not wait for what is thrown here, so chunks are only kept.
  await parquetRead({ file: fileOf(bytes), metadata, columns: [name], compressors: bounded, parsers, onChunk: ({ columnData, rowStart }) => void chunks.push({ from: rowStart, values: columnData }) });
  chunks.sort((a, b) => a.from - b.from);
  let next = 0;
  for (const { from, values } of chunks) {
    if (from !== next) throw new Error(`column "${name.slice(0, 60)}": rows ${next} to ${from} are missing or stand twice`);
    next += values.length;
  }
  if (next !== rows) throw new Error(`column "${name.slice(0, 60)}": ${next} values for ${rows} rows`);
  if (kind.holds === "numbers" || kind.holds === "times of day") {
    const numbers = new Float64Array(rows);
    for (const { from, values } of chunks) for (let i = 0; i < values.length; i++) numbers[from + i] = numberOf(values[i], kind.decimals);
    return kind.perSecond === undefined ? { kind: "numbers", values: numbers } : { kind: "daytimes", unit: "ns", values: numbers.map((value) => value * (1e9 / (kind.perSecond as number))) };
  }
  const all = chunks.flatMap(({ values }) => Array.from(values));
  if (kind.holds === "text") return { kind: "cells", cells: all.map((value) => (value == null ? null : String(value))) };
  return { kind: "stamps", ns: all.map((value) => (typeof value === "bigint" ? value : null)), zoned: kind.holds === "stamps in UTC" };
}

function numberOf(value: unknown, decimals: number | null): number {
  if (value === null || value === undefined) return Number.NaN;
  if (typeof value === "boolean") return value ? 1 : 0;
  if (typeof value === "bigint") {
    if (value > 9_007_199_254_740_992n || value < -9_007_199_254_740_992n) throw new Error(`the whole number ${value} is too large to be held exactly`);
    return Number(value);
  }
  if (typeof value !== "number") throw new Error(`a ${typeof value} among numbers`);
  // The library multiplies by a power of ten that no double holds exactly.
  return decimals === null ? value : Number(value.toFixed(Math.min(100, Math.max(0, decimals))));
}
