import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import type { LogContents } from "../../src/importers/contract.ts";
import { inspectAnyLog } from "../../src/importers/inspectAnyLog.ts";

const sample = (name: string): string => fileURLToPath(new URL(`../../fixtures/formats/${name}`, import.meta.url));

describe("inspectAnyLog", () => {
  it.each([
    ["xlsx/log1900.xlsx", "sheet", "Fx", "N"],
    ["mat/struct.mat", "group", "log.Fx", "N"],
    ["mat/version73.mat", "group", "log.Fx", "N"],
    ["hdf5/log.h5", "group", "run/forces/Fx", "N"],
    ["parquet/zstd.parquet", "table", "Fx [N]", "N"],
    ["arrow/log.arrow", "table", "Fx", "N"],
    ["mcap/log.mcap", "topic", "wrench.force.x", null],
  ])("says what is inside %s", async (file, partWord, name, unit) => {
    const found = (await inspectAnyLog(sample(file))) as LogContents;
    expect(found).toMatchObject({ file: file.split("/")[1], partWord });
    expect(found.parts.flatMap(({ columns }) => columns)).toContainEqual(expect.objectContaining({ name, unit, rows: 200 }));
  });

  const steady = { median: expect.closeTo(0.01, 9) as number, count: 199, gaps: 0, duplicates: 0, backward: 0 };

  it.each([
    ["xlsx/log1900.xlsx", "Log", [{ column: "Time", clock: null, why: expect.stringContaining("without a zone") as string, intervals: steady }, { column: "t [s]", clock: { kind: "elapsed", column: "t [s]", unit: "s" }, rateHz: 100, intervals: steady }]],
    ["mat/struct.mat", "log", [{ column: "log.t", clock: { kind: "elapsed", column: "log.t", unit: "s" }, durationS: 1.99, intervals: steady }]],
    ["mat/plain.mat", "", [{ column: "t", clock: null, rateHz: null, why: "rises throughout in steps of about 0.01, but the file does not say its unit; elapsed time, or a counter", intervals: steady }, { column: "Enc64", clock: null, rateHz: null }]],
    ["mat/version73.mat", "log", [{ column: "log.t", clock: { kind: "elapsed", column: "log.t", unit: "s" }, intervals: steady }]],
    ["hdf5/log.h5", "run", [{ column: "run/short", clock: null }, { column: "run/stamp", clock: { kind: "iso", column: "run/stamp" }, intervals: steady }, { column: "run/t", clock: { kind: "elapsed", column: "run/t", unit: "s" }, intervals: steady }]],
    ["parquet/zstd.parquet", "", [{ column: "t", clock: null }, { column: "wall", clock: null, intervals: steady }, { column: "stamp", clock: { kind: "stamp", column: "stamp" }, intervals: steady }]],
    ["arrow/log.arrow", "", [{ column: "t", clock: { kind: "elapsed", column: "t", unit: "s" } }, { column: "stamp", clock: { kind: "stamp", column: "stamp" }, intervals: steady }, { column: "wall", clock: null }, { column: "text", clock: { kind: "iso", column: "text" }, intervals: steady }]],
    ["mcap/log.mcap", "/joint_states", [{ column: "header stamp", clock: null, why: "the same in every message: nobody filled it in", intervals: { duplicates: 199 } }, { column: "log stamp", clock: { kind: "message", stamp: "log", epoch: "unix" }, intervals: { jitter: expect.closeTo(0.00043, 5) as number } }, { column: "publish stamp", intervals: steady }]],
    ["mcap/boot.mcap", "/bench", [{ column: "header stamp", clock: null, why: expect.stringContaining("epoch: boot") as string, intervals: steady }, { column: "log stamp", clock: null }, { column: "publish stamp", clock: null }, { column: "t", clock: null }]],
  ])("says of %s which columns may be the time, and how their intervals are distributed", async (file, name, candidates) => {
    const found = (await inspectAnyLog(sample(file))) as LogContents;
    expect(found.parts.find((part) => part.name === name)?.timeCandidates).toMatchObject(candidates);
  });

  it("inspects text as before, and says of other formats how to bring them", async () => {
    const folder = mkdtempSync(join(tmpdir(), "drawbar-"));
    const inspected = async (name: string, bytes: string | Uint8Array): Promise<unknown> => {
      writeFileSync(join(folder, name), bytes);
      return inspectAnyLog(join(folder, name));
    };
    expect(await inspected("a.csv", "t,F\n0.0,1.5\n0.1,2.5\n")).toMatchObject({ readings: [{ rows: 2 }] });
    await expect(inspected("a.xls", Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0, 0))).rejects.toThrow("found a workbook of the old kind (.xls) or one with a password. Save it as .xlsx");
    await expect(inspected("a.gz", Uint8Array.of(0x1f, 0x8b, 8, 0, 0))).rejects.toThrow("a gzip archive. Unpack it");
    await expect(inspected("a.bin", Uint8Array.of(1, 0, 0, 0, 7))).rejects.toThrow("found bytes of no kind drawbar knows");
    await expect(inspected("empty", "")).rejects.toThrow(InputError);
    await expect(inspectAnyLog(join(folder, "none"))).rejects.toThrow("found no file of that name");
    rmSync(folder, { recursive: true });
  });
});
