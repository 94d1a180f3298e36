import type { Sample } from "./contract.ts";
import { elapsed, formatFile, truth } from "./formatTruth.ts";
import type { ReadOptions } from "../../src/importers/contract.ts";

/** The committed samples of every format that is not text; fixtures/formats says who wrote them. */
export const formatSamples: Readonly<Record<string, readonly Sample[]>> = {
  "MAT version 5": [sample("struct of arrays, packed", "mat/struct.mat"), sample("arrays, plain", "mat/plain.mat", { columns: ["both(:,1)", "both(:,2)", "Enc64"] })],
  "MAT version 7.3": [sample("struct of arrays", "mat/version73.mat", { part: "log" })],
  "XLSX workbook": [sample("1900 calendar", "xlsx/log1900.xlsx", { part: "Log" }), sample("1904 calendar", "xlsx/log1904.xlsx", { clock: { kind: "stamp", column: "Time", zone: "Europe/Oslo" } })],
  Parquet: [sample("zstd", "parquet/zstd.parquet"), sample("plain", "parquet/uncompressed.parquet", { clock: { kind: "stamp", column: "stamp" } })],
  "Arrow IPC": [sample("file of two batches", "arrow/log.arrow"), sample("stream", "arrow/stream.arrows", { clock: { kind: "stamp", column: "wall", zone: "UTC" } })],
  MCAP: [
    sample("ROS 2, packed", "mcap/log.mcap", { part: "/sensor/wrench", columns: ["wrench.force.x", "wrench.force.z"], clock: { kind: "message", stamp: "header", epoch: "unix" } }),
    sample("JSON", "mcap/boot.mcap", { part: "/bench", columns: ["Fx", "Fz"] }),
  ],
  HDF5: [sample("groups, chunked and packed", "hdf5/log.h5", { part: "run", columns: ["forces/Fx", "forces/Fz", "both[:,1]", "forces/Enc"], clock: { kind: "elapsed", column: "run/t", unit: "s" } })],
};

function sample(name: string, file: string, options: Partial<ReadOptions> = {}): Sample {
  return { name, bytes: formatFile(file), options: { ...elapsed, ...options }, rows: truth.rows, withText: null };
}
