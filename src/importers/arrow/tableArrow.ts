import { exactJson, parseExactJson } from "../../core/exactJson.ts";
import type { Samples } from "../../core/recording.ts";
import type { RawColumn, RawTable } from "../contract.ts";

/** All of a table but its samples. */
type Written = Omit<RawTable, "timesS" | "columns"> & { readonly columns: readonly Omit<RawColumn, "samples">[] };

const key = "drawbar raw table";

/** A raw table as an Arrow IPC file: times and channels as columns of doubles, bit for bit; the rest as JSON beside the schema. */
export async function tableToArrow({ timesS, columns, ...rest }: RawTable): Promise<Uint8Array> {
  // Loaded when called: whoever finds all runs done does not wait for it.
  const { Field, Float64, RecordBatch, Schema, Struct, Table, makeData, tableToIPC } = await import("apache-arrow");
  const written: Written = { ...rest, columns: columns.map(({ samples: _, ...column }) => column) };
  // By place: a log may have two columns of one name.
  const all = [timesS, ...columns.map(({ samples }) => samples)];
  const fields = all.map((_, place) => new Field(String(place), new Float64(), false));
  const schema = new Schema(fields, new Map([[key, exactJson(written)]]));
  const children = all.map((samples) => makeData({ type: new Float64(), data: doubles(samples), nullCount: 0 }));
  const rows = makeData({ type: new Struct(fields), length: timesS.length, nullCount: 0, children });
  return tableToIPC(new Table(schema, new RecordBatch(schema, rows)), "file");
}

/** The same table again. Its samples stand in `bytes`, which must not be changed. */
export async function arrowToTable(bytes: Uint8Array): Promise<RawTable> {
  const { tableFromIPC } = await import("apache-arrow");
  const table = tableFromIPC(bytes);
  const { columns, ...rest } = parseExactJson(table.schema.metadata.get(key) as string) as Written;
  const samples = (place: number): Samples => table.getChildAt(place)?.toArray() as Float64Array;
  return { ...rest, timesS: samples(0), columns: columns.map((column, place) => ({ ...column, samples: samples(place + 1) })) };
}

function doubles(samples: Samples): Float64Array {
  return samples instanceof Float64Array ? samples : Float64Array.from(samples);
}
