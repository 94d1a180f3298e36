import type { Recording } from "../../src/core/recording.ts";
import type { RawTable, ReadOptions } from "../../src/importers/contract.ts";
import { readBytes } from "../../src/importers/readLog.ts";

const values = [1.5, Number.NaN, -0.1 - 0.2, 1e-300, 123456789.123456789, 5e-324];

/** A small recording with a gap, a channel without a stated doubt and numbers that need all their digits. */
export const made: Recording = {
  time: { kind: "uniform", startS: -0.1, rateHz: 3, count: values.length },
  startedAt: "2026-10-01T08:00:00.000+02:00",
  channels: [
    { name: "drawbarPull", unit: "N", samples: Float64Array.from(values), doubt: { noise: 0.01, offset: 0.1, relativeGain: 0.002, calibration: "LC-2" } },
    { name: "wheelTorque", unit: "N.m", samples: Float64Array.from(values, (value) => -3 * value), doubt: null },
  ],
  sources: [{ file: "logs/R07.txt", sha256: "ab".repeat(32), format: "delimited text; comma; decimal point; UTF-8", bytes: 1234, rowsRead: 6, rowsRefused: 1 }],
  history: [{ name: "calibrate", version: "1", parameters: { drawbarPull: "LC-2" } }],
};

export const times: readonly number[] = values.map((_, index) => -0.1 + index / 3);

const options: Omit<ReadOptions, "clock"> = { columns: ["drawbarPull", "wheelTorque"], missing: [], overload: [] };

/** Through drawbar's own reader for whatever format the bytes have. */
export async function readBack(bytes: Uint8Array, time = "time"): Promise<RawTable> {
  return readBytes(bytes, "export", { ...options, clock: { kind: "elapsed", column: time, unit: "s" } });
}

export const wholeProvenance: readonly (readonly [string, string])[] = [
  ["run", "R07"],
  ["started at", "2026-10-01T08:00:00.000+02:00"],
  ["source 1", "logs/R07.txt"],
  ["source 1 SHA-256", "ab".repeat(32)],
  ["step 1", 'calibrate 1 {"drawbarPull":"LC-2"}'],
  ["standard uncertainty of drawbarPull", "noise 0.01 N a sample; offset 0.1 N common to the run; gain 0.002 of the reading, shared by LC-2"],
  ["standard uncertainty of wheelTorque", "not stated"],
];
