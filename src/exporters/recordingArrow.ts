import type { Recording } from "../core/recording.ts";
import { columnsOf, provenanceOf } from "./recordingColumns.ts";
import type { About, ExportColumn } from "./recordingColumns.ts";

/** A recording as an Arrow IPC file: one column of doubles a channel, its unit in the field's metadata, provenance in the schema's. */
export async function recordingArrow(recording: Recording, about: About = []): Promise<Uint8Array> {
  return arrowTable(columnsOf(recording), provenanceOf(recording, about), "file");
}

/** The schema alone, as Arrow puts it before its data: other formats carry it beside theirs to keep the units. */
export async function arrowSchema(columns: readonly ExportColumn[]): Promise<Uint8Array> {
  return arrowTable(columns.map((column) => ({ ...column, values: new Float64Array(0) })), [], "stream");
}

async function arrowTable(columns: readonly ExportColumn[], metadata: readonly (readonly [string, string])[], form: "file" | "stream"): Promise<Uint8Array> {
  // Loaded when called: whoever only measures does not wait for it.
  const { Field, Float64, RecordBatch, Schema, Struct, Table, makeData, tableToIPC } = await import("apache-arrow");
  const fields = columns.map(({ name, unit }) => new Field(name, new Float64(), false, new Map([["unit", unit]])));
  const schema = new Schema(fields, new Map(metadata));
  const children = columns.map(({ values }) => makeData({ type: new Float64(), data: values, nullCount: 0 }));
  const rows = makeData({ type: new Struct(fields), length: columns[0]?.values.length ?? 0, nullCount: 0, children });
  return tableToIPC(new Table(schema, new RecordBatch(schema, rows)), form);
}
