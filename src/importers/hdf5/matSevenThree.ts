import type { Dataset, Group } from "h5wasm";
import type { ColumnLog, LogColumn, LogPart } from "../columnLog.ts";
import { columnImporter } from "../columnTable.ts";
import { sidesOf } from "../mat/matSides.ts";
import { isMatSevenThree } from "../signatures.ts";
import { attributesOf } from "./attributes.ts";
import { datasetColumns, obstacleOf } from "./datasets.ts";
import { isDataset, isGroup, openFile, plainly } from "./openFile.ts";

const deepest = 32;
const numberClasses = new Set(["double", "single", "logical", "int8", "uint8", "int16", "uint16", "int32", "uint32", "int64", "uint64"]);

/** MAT files of version 7.3: HDF5 whose sizes stand the other way round, since its arrays run by columns. */
export const matSevenThree = columnImporter("MAT version 7.3", isMatSevenThree, openMat);

async function openMat(bytes: Uint8Array): Promise<ColumnLog> {
  const { file, close } = await openFile(bytes);
  try {
    const parts: LogPart[] = [];
    const metadata: [string, string][] = [];
    walk(file, "", parts, metadata, 0);
    return { format: "MAT version 7.3", partWord: "group", partMark: ".", joined: true, parts, metadata, evidence: ["MAT version 7.3: HDF5 behind a header that says so"], findings: [], close };
  } catch (error) {
    close();
    throw error;
  }
}

function walk(group: Group, name: string, parts: LogPart[], metadata: [string, string][], depth: number): void {
  if (depth > deepest) throw new Error(`structs within structs, more than ${deepest} deep`);
  const columns: LogColumn[] = [];
  parts.push({ name, columns, clocks: {}, rowName: (row) => `row ${row + 1}`, findings: [] });
  const children = plainly(() => group.keys()).filter((key) => !key.startsWith("#")).map((key) => [key, plainly(() => group.get(key))] as const);
  for (const [key, child] of children) {
    const path = name === "" ? key : `${name}.${key}`;
    if (isGroup(child)) walk(child, path, parts, metadata, depth + 1);
    if (!isDataset(child)) continue;
    const text = textOf(child);
    if (text !== null) metadata.push([path, text]);
    else columns.push(...columnsOf(key, child, unitFor(key, children)));
  }
}

function columnsOf(name: string, dataset: Dataset, unit: string | null): LogColumn[] {
  const shape = dataset.shape ?? [];
  const className = attributesOf(dataset).get("MATLAB_class");
  const strange = typeof className === "string" && !numberClasses.has(className) ? (className === "cell" ? "a cell array" : `an object of the class ${className}, whose layout is not published`) : null;
  const empty = attributesOf(dataset).get("MATLAB_empty") === 1 ? "an empty array" : null;
  const obstacle = strange ?? empty ?? obstacleOf(dataset);
  const dims = [...shape].reverse();
  return sidesOf(name, dims.length < 2 ? [1, ...dims] : dims).flatMap((side) => {
    const ranges = shape.map((size) => [0, size] as [number, number]);
    // `(:,j)` fixes the second size, which HDF5 has first; `(i,:)` the other way round.
    const column = /\(:,(\d+)\)$/.exec(side.name)?.[1];
    const row = /\((\d+),:\)$/.exec(side.name)?.[1];
    if (column !== undefined) ranges[0] = [Number(column) - 1, Number(column)];
    if (row !== undefined) ranges[1] = [Number(row) - 1, Number(row)];
    return datasetColumns(dataset, [{ name: side.name, ranges, count: side.count }], obstacle ?? side.obstacle, unit);
  });
}

/** Letters are kept as numbers of 16 bits. */
function textOf(dataset: Dataset): string | null {
  const attributes = attributesOf(dataset);
  if (attributes.get("MATLAB_class") !== "char") return null;
  if (attributes.get("MATLAB_empty") === 1) return "";
  const count = (dataset.shape ?? []).reduce((product, size) => product * size, 1);
  if (count > 65_536 || obstacleOf(dataset) !== null) return null;
  const codes = plainly(() => dataset.value);
  return ArrayBuffer.isView(codes) ? String.fromCharCode(...(codes as unknown as Iterable<number>)) : null;
}

/** `unit` or `units` beside the numbers: one text for all of them, or a struct with a text for each. */
function unitFor(name: string, children: readonly (readonly [string, unknown])[]): string | null {
  for (const [key, child] of children) {
    if (!/^units?$/i.test(key)) continue;
    const own = isGroup(child) && child.keys().includes(name) ? child.get(name) : child;
    const text = isDataset(own) ? textOf(own) : null;
    if (text !== null) return text.trim() || null;
  }
  return null;
}
