import { parentPort } from "node:worker_threads";
import { InputError } from "../core/errors.ts";
import type { Importer, RawTable } from "./contract.ts";
import type { GuardAnswer, GuardTask } from "./guard.ts";

/** Formats that are read by libraries of others; each is loaded when its first file comes. */
const readers = {
  "MAT version 7.3": async () => (await import("./hdf5/matSevenThree.ts")).matSevenThree,
  HDF5: async () => (await import("./hdf5/hdf5.ts")).hdf5,
  Parquet: async () => (await import("./parquet/parquet.ts")).parquet,
  "Arrow IPC": async () => (await import("./arrow/arrowIpc.ts")).arrowIpc,
  MCAP: async () => (await import("./mcap/mcap.ts")).mcap,
} as const satisfies Record<string, () => Promise<Importer>>;

export type FormatName = keyof typeof readers;

parentPort?.on("message", (task: GuardTask) => {
  void answer(task).then((said) => parentPort?.postMessage(said, "result" in said && "timesS" in said.result ? buffersOf(said.result) : []));
});

async function answer({ id, format, bytes, fileName, options }: GuardTask): Promise<GuardAnswer> {
  try {
    const importer = await readers[format]();
    if (options === null) return { id, result: await (importer.contents as NonNullable<Importer["contents"]>)(bytes, fileName) };
    return { id, result: await importer.read(bytes, fileName, options) };
  } catch (error) {
    return error instanceof InputError ? { id, issues: error.issues } : { id, fault: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

/** Columns change hands without being copied. */
function buffersOf(table: RawTable): ArrayBuffer[] {
  const all = [table.timesS, ...table.columns.map(({ samples }) => samples)].filter((samples) => samples instanceof Float64Array);
  return [...new Set(all.map(({ buffer }) => buffer as ArrayBuffer))];
}
