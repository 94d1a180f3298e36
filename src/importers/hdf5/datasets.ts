import type { Dataset } from "h5wasm";
import type { ColumnValues, LogColumn } from "../columnLog.ts";
import { attributesOf, numberAmong, textAmong } from "./attributes.ts";
import { plainly } from "./openFile.ts";

/** One column of a dataset: half-open ranges, one per dimension. */
export interface DatasetSide {
  readonly name: string;
  readonly ranges: readonly (readonly [number, number])[];
  readonly count: number;
}

type Metadata = Dataset["metadata"];

// Filters that the library carries: deflate, shuffle, checksum, n-bit, scale-offset. With any other it gives arbitrary numbers.
const knownFilters = new Set([1, 2, 3, 5, 6]);
const mostBytes = 2 ** 30;
const sliceRows = 4_000_000;
const typeClass = { integer: 0, float: 1, string: 3, compound: 6, enumeration: 8 } as const;

/** Why a dataset cannot be read as columns of numbers or texts; null = it can. */
export function obstacleOf(dataset: Dataset): string | null {
  const { metadata } = dataset;
  if (metadata.virtual_sources !== undefined && metadata.virtual_sources.length > 0) return "a virtual dataset, whose numbers stand in other files";
  const unknown = plainly(() => dataset.filters).filter((filter) => !knownFilters.has(filter.id));
  if (unknown.length > 0) return `data packed with ${unknown.map((filter) => `${filter.name || "a filter"} (number ${filter.id})`).join(" and ")}, which drawbar does not carry`;
  if (metadata.shape === null) return "a dataset without values";
  const bytes = metadata.shape.reduce((product, size) => product * size, metadata.size);
  return bytes > mostBytes ? `${(bytes / 1e9).toPrecision(3)} GB in one dataset, more than the ${mostBytes / 1e9} GB drawbar reads` : null;
}

/** Why values of this type are neither numbers nor texts; null = they are. */
export function typeObstacle(metadata: Pick<Metadata, "type" | "size">): string | null {
  const { type, size } = metadata;
  if (type === typeClass.string || type === typeClass.integer || type === typeClass.enumeration) return null;
  if (type === typeClass.float) return size === 4 || size === 8 ? null : `floats of ${size * 8} bits`;
  return "values that are no numbers";
}

export function typeName(metadata: Pick<Metadata, "type" | "size" | "signed">): string {
  const bits = metadata.size * 8;
  if (metadata.type === typeClass.integer) return `${bits}-bit ${metadata.signed ? "whole number" : "count"}`;
  if (metadata.type === typeClass.float) return `${bits}-bit float`;
  if (metadata.type === typeClass.string) return "text";
  return metadata.type === typeClass.enumeration ? "switch" : "no number";
}

/** Columns of a dataset, with its unit, its packing by scale and offset, and its stated gain. */
export function datasetColumns(dataset: Dataset, sides: readonly DatasetSide[], obstacle: string | null, unit: string | null): LogColumn[] {
  const attributes = attributesOf(dataset);
  const scale = numberAmong(attributes, ["scale_factor"]);
  const summand = numberAmong(attributes, ["add_offset"]);
  const fill = numberAmong(attributes, ["_FillValue", "missing_value"]);
  const gain = numberAmong(attributes, ["gain", "Gain"]);
  const packed = scale === null && summand === null && fill === null ? "" : `, packed as ${[scale === null ? "" : `× ${scale}`, summand === null ? "" : `+ ${summand}`, fill === null ? "" : `${fill} = missing`].filter((text) => text !== "").join(", ")}`;
  return sides.map((side) => ({
    name: side.name,
    unit: textAmong(attributes, ["units", "unit", "Units", "Unit"]) ?? unit,
    rows: side.count,
    type: `${typeName(dataset.metadata)} ${(dataset.shape ?? []).join("×")}${packed}`,
    obstacle: obstacle ?? typeObstacle(dataset.metadata),
    storedGain: gain === null ? null : { gain, offset: numberAmong(attributes, ["offset", "Offset"]) ?? 0 },
    values: () => unpacked(sideValues(dataset, side), scale ?? 1, summand ?? 0, fill),
  }));
}

/** `scale_factor`, `add_offset` and `_FillValue` say how numbers were packed (netCDF attribute conventions): value = number · scale_factor + add_offset. */
function unpacked(values: ColumnValues, scale: number, summand: number, fill: number | null): ColumnValues {
  if (values.kind !== "numbers" || (scale === 1 && summand === 0 && fill === null)) return values;
  return { kind: "numbers", values: values.values.map((value) => (value === fill ? Number.NaN : value * scale + summand)) };
}

function sideValues(dataset: Dataset, { ranges, count }: DatasetSide): ColumnValues {
  const text = dataset.metadata.type === typeClass.string;
  const cells: string[] = [];
  const numbers = new Float64Array(text ? 0 : count);
  // Piece by piece along the longest dimension, so that the library's memory holds one piece at a time.
  const along = ranges.findIndex(([from, to]) => to - from === Math.max(...ranges.map(([a, b]) => b - a)));
  const [first, last] = ranges[along] ?? [0, 1];
  let at = 0;
  for (let from = first; from < last; from += sliceRows) {
    const piece = ranges.map((range, index) => (index === along ? [from, Math.min(last, from + sliceRows)] : [...range]));
    const got = plainly(() => dataset.slice(piece as [number, number][])) as unknown;
    if (text) (Array.isArray(got) ? (got as string[]) : [String(got)]).forEach((cell) => cells.push(cell));
    else at += put(numbers, at, got);
  }
  if (!text && at !== count) throw new Error(`expected ${count} values, found ${at}`);
  return text ? { kind: "cells", cells } : { kind: "numbers", values: numbers };
}

/** Rows of a table of several fields: one array of values a row. */
export function fieldValues(dataset: Dataset, index: number, rows: number): ColumnValues {
  const cells: (number | string)[] = [];
  for (let from = 0; from < rows; from += 100_000) {
    const got = plainly(() => dataset.slice([[from, Math.min(rows, from + 100_000)]])) as unknown as readonly (readonly unknown[])[];
    for (const row of got) cells.push(typeof row[index] === "string" ? row[index] : exact(row[index] as number | bigint));
  }
  return cells.every((cell) => typeof cell === "number") ? { kind: "numbers", values: Float64Array.from(cells as number[]) } : { kind: "cells", cells };
}

function put(numbers: Float64Array, at: number, got: unknown): number {
  const some = (ArrayBuffer.isView(got) || Array.isArray(got) ? got : [got]) as ArrayLike<number | bigint | boolean>;
  for (let i = 0; i < some.length; i++) numbers[at + i] = exact(some[i] as number | bigint);
  return some.length;
}

/** A whole number beyond 2^53 cannot be held exactly, and a rounded count would be a wrong one. */
function exact(value: number | bigint): number {
  if (typeof value === "bigint" && (value > 9_007_199_254_740_992n || value < -9_007_199_254_740_992n)) throw new Error(`the whole number ${value} is too large to be held exactly`);
  return Number(value);
}
