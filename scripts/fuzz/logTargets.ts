import { readFileSync } from "node:fs";
import { InputError } from "../../src/core/errors.ts";
import type { ReadOptions } from "../../src/importers/contract.ts";
import { inspectBytes } from "../../src/importers/inspectLog.ts";
import { readBytes } from "../../src/importers/readLog.ts";
import { formatOf, formats } from "../../src/importers/registry.ts";
import { delimitedSamples } from "../../tests/importers/delimitedSamples.ts";
import { built, insideMat, matBomb } from "./built.ts";
import { checkTable } from "./judge.ts";
import { spoilBytes } from "./spoilBytes.ts";
import { spoilText } from "./spoilText.ts";
import { spoilWorkbook } from "./spoilWorkbook.ts";
import type { FuzzSample, Target } from "./target.ts";

const t: ReadOptions = { clock: { kind: "elapsed", column: "t", unit: "s" }, columns: ["Fx"], missing: [], overload: [] };

const files: Readonly<Record<string, readonly (readonly [string, Partial<ReadOptions>])[]>> = {
  "XLSX workbook": [["xlsx/log1900.xlsx", { part: "Log" }], ["xlsx/log1904.xlsx", { clock: { kind: "stamp", column: "Time", zone: "Europe/Oslo" } }], ["xlsx/runs.xlsx", {}], ["dated/log.xlsx", { columns: ["F"], clock: { kind: "stamp", column: "Time", zone: "UTC", dateColumn: "Date" } }]],
  "MAT version 5": [["mat/struct.mat", {}], ["mat/plain.mat", { columns: ["both(:,1)"] }], ["dated/log.mat", { columns: ["F"], clock: { kind: "wall", column: "time", format: "HHmmss.SSS", zone: "UTC", dateColumn: "date", dateFormat: "yyyyMMdd" } }]],
  "MAT version 7.3": [["mat/version73.mat", { part: "log" }]],
  HDF5: [["hdf5/log.h5", { part: "run", columns: ["forces/Fx"], clock: { kind: "elapsed", column: "run/t", unit: "s" } }], ["dated/log.h5", { columns: ["F"], clock: { kind: "wall", column: "clock/time", format: "HH:mm:ss.SSS", zone: "UTC", dateColumn: "date", dateFormat: "dd.MM.yyyy" } }]],
  Parquet: [["parquet/zstd.parquet", {}], ["parquet/uncompressed.parquet", { clock: { kind: "stamp", column: "stamp" } }], ["parquet/snappy.parquet", {}], ["parquet/gzip.parquet", {}], ["parquet/lz4_raw.parquet", {}], ["parquet/groups.parquet", { columns: ["F"] }], ["dated/log.parquet", { columns: ["F"], clock: { kind: "stamp", column: "time", zone: "UTC", dateColumn: "date" } }]],
  "Arrow IPC": [["arrow/log.arrow", {}], ["arrow/stream.arrows", { clock: { kind: "stamp", column: "wall", zone: "UTC" } }], ["arrow/log.arrow", { clock: { kind: "iso", column: "text" } }], ["dated/log.arrow", { columns: ["F"], clock: { kind: "stamp", column: "timeMs", zone: "UTC", dateColumn: "dateMs" } }]],
  MCAP: [["mcap/log.mcap", { part: "/sensor/wrench", columns: ["wrench.force.x"], clock: { kind: "message", stamp: "header", epoch: "unix" } }], ["mcap/boot.mcap", { part: "/bench" }], ["mcap/log.mcap", { part: "/bench" }]],
};

const own: Readonly<Record<string, Target["spoils"]>> = {
  "XLSX workbook": spoilWorkbook,
  "MAT version 5": { "packed part damaged": insideMat, "bomb": matBomb },
};

/** Every format of the registry, read with a description, and inspected without one. */
export const logTargets: readonly Target[] = formats.map(({ format }): Target => {
  if (format === "delimited text") return { name: format, samples: delimitedSamples.map(({ name, bytes, options }) => sample(name, bytes, options)), spoils: { ...spoilBytes, ...spoilText } };
  const made = built[format];
  return {
    name: format,
    samples: (files[format] ?? []).map(([file, options]) => sample(file, new Uint8Array(readFileSync(new URL(`../../fixtures/formats/${file}`, import.meta.url))), { ...t, ...options })),
    spoils: { ...spoilBytes, ...own[format] },
    ...(made === undefined ? {} : { built: made }),
  };
});

function sample(name: string, bytes: Uint8Array, options: ReadOptions): FuzzSample {
  return {
    name,
    bytes,
    read: async (spoilt) => {
      await inspected(spoilt);
      checkTable(await readBytes(spoilt, "logs/x", options));
    },
  };
}

/** What an inspection says or refuses does not matter here, only that it does one of them. */
async function inspected(bytes: Uint8Array): Promise<void> {
  const format = formatOf(bytes.subarray(0, 65_536), "logs/x");
  if (format === undefined || bytes.length === 0) return;
  const { contents } = await format.load();
  try {
    if (contents === null) inspectBytes(bytes, "logs/x");
    else await contents(bytes, "logs/x");
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
  }
}
