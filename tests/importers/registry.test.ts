import { describe, expect, it, vi } from "vitest";
import { formatOf, formats } from "../../src/importers/registry.ts";
import { readBytes } from "../../src/importers/readLog.ts";
import { formatFile } from "./formatTruth.ts";
import { plain, utf8 } from "./sample.ts";

const loaded = vi.hoisted(() => [] as string[]);
vi.mock("../../src/importers/guard.ts", async (original) => (loaded.push("guard"), original()));
vi.mock("../../src/importers/xlsx/workbookLog.ts", async (original) => (loaded.push("xlsx"), original()));
vi.mock("../../src/importers/mat/matFive.ts", async (original) => (loaded.push("mat"), original()));

describe("the registry", () => {
  it("loads a reader when its first file comes, and none for text", async () => {
    await readBytes(utf8("t,F\n0.0,1.5\n0.1,2.5\n"), "a.csv", plain);
    expect(loaded).toEqual([]);
    await formatOf(formatFile("xlsx/log1900.xlsx"), "")?.load();
    expect(loaded).toEqual(["xlsx"]);
    await formatOf(formatFile("hdf5/log.h5"), "")?.load();
    expect(loaded).toEqual(["xlsx", "guard"]);
  });

  it.each([
    ["xlsx/runs.xlsx", "XLSX workbook"],
    ["mat/plain.mat", "MAT version 5"],
    ["mat/version73.mat", "MAT version 7.3"],
    ["hdf5/log.h5", "HDF5"],
    ["parquet/gzip.parquet", "Parquet"],
    ["arrow/log.arrow", "Arrow IPC"],
    ["arrow/stream.arrows", "Arrow IPC"],
    ["mcap/boot.mcap", "MCAP"],
  ])("knows %s by its first bytes, whatever its name", (file, format) => {
    expect(formatOf(formatFile(file).subarray(0, 65_536), "log.txt")?.format).toBe(format);
    expect(formats.filter((one) => one.sniff(formatFile(file).subarray(0, 65_536), "log.txt")).length).toBeLessThanOrEqual(format === "MAT version 7.3" ? 2 : 1);
  });
});
