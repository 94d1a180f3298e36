import { plainColumn } from "../columnLog.ts";
import type { ColumnLog, LogColumn, LogPart } from "../columnLog.ts";
import { columnImporter } from "../columnTable.ts";
import { isMatFive } from "../signatures.ts";
import { numbersOf } from "./matElements.ts";
import { matVariables } from "./matVariables.ts";
import type { MatFile, MatValue } from "./matVariables.ts";
import { sidesOf } from "./matSides.ts";

/** MAT files of version 5: arrays of numbers, and structs of them, packed or not. */
export const matFive = columnImporter("MAT version 5", isMatFive, (bytes) => openMat(matVariables(bytes)));

function openMat(file: MatFile): ColumnLog {
  const parts: LogPart[] = [];
  const metadata: [string, string][] = [];
  partOf("", file.variables, file.little, parts, metadata);
  return {
    format: `MAT version 5${file.compressed ? "; packed" : ""}`,
    partWord: "group",
    partMark: ".",
    joined: true,
    parts,
    metadata,
    evidence: [`MAT version 5, ${file.little ? "little" : "big"} endian${file.compressed ? ", packed" : ""}: ${file.description.slice(0, 80)}`],
    findings: [],
  };
}

/** A struct is a part; its texts are said along with the numbers, and name their units. */
function partOf(name: string, fields: ReadonlyMap<string, MatValue>, little: boolean, parts: LogPart[], metadata: [string, string][]): void {
  const columns: LogColumn[] = [];
  parts.push({ name, columns, clocks: {}, rowName: (row) => `row ${row + 1}`, findings: [] });
  for (const [field, value] of fields) {
    const path = name === "" ? field : `${name}.${field}`;
    if (value.kind === "struct") partOf(path, value.fields, little, parts, metadata);
    else if (value.kind === "text") metadata.push([path, value.text]);
    else if (value.kind === "other") columns.push(plainColumn({ name: field, unit: null, rows: 0, type: value.what, obstacle: value.what, values: () => ({ kind: "numbers", values: new Float64Array(0) }) }));
    else columns.push(...numberColumns(field, unitFor(field, fields), value, little));
  }
}

function numberColumns(field: string, unit: string | null, { className, dims, element }: Extract<MatValue, { kind: "numbers" }>, little: boolean): LogColumn[] {
  return sidesOf(field, dims).map(({ name, first, step, count, obstacle }) =>
    plainColumn({ name, unit, rows: count, type: `${className} ${dims.join("×")}`, obstacle, values: () => ({ kind: "numbers", values: numbersOf(element, little, first, step, count) }) }),
  );
}

/** `unit` or `units` beside the numbers: one text for all of them, or a struct with a text for each. */
function unitFor(field: string, fields: ReadonlyMap<string, MatValue>): string | null {
  for (const key of ["unit", "units", "Unit", "Units"]) {
    const value = fields.get(key);
    if (value?.kind === "text") return value.text.trim() || null;
    const own = value?.kind === "struct" ? value.fields.get(field) : undefined;
    if (own?.kind === "text") return own.text.trim() || null;
  }
  return null;
}
