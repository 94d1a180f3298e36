import { describe, expect, it } from "vitest";
import { hdf5 } from "../../../src/importers/hdf5/hdf5.ts";
import type { ReadOptions } from "../../../src/importers/contract.ts";
import { expectTruth, formatFile, readFormat, refusalOf, truth } from "../formatTruth.ts";

const file = "hdf5/log.h5";
const time: ReadOptions["clock"] = { kind: "elapsed", column: "run/t", unit: "s" };
const forces = { columns: ["forces/Fx", "run/forces/Fz", "/run/forces/Enc"], part: "run", clock: time } as const;

describe("HDF5, as h5py writes it", () => {
  it("reads chunked, packed and big-endian datasets with their units", async () => {
    const table = await readFormat(file, forces);
    expectTruth(table);
    expect(table.columns.map(({ unit }) => unit)).toEqual(["N", "N", "count"]);
    expect(table.metadata).toEqual(expect.arrayContaining([["run", "R07"], ["run/operator", "nobody"]]));
    expect(table.startedAt).toBeNull();
  });

  it("reads columns of a matrix, fields of a table, and links within the file", async () => {
    const matrix = await readFormat(file, { columns: ["both[:,1]", "run/link"], clock: time });
    expect(matrix.columns.map(({ samples }) => [...samples])).toEqual([truth.Fz, truth.Fz]);
    expect(matrix.columns.map(({ unit }) => unit)).toEqual([null, "N"]);
    expectTruth(await readFormat(file, { part: "run/table", columns: ["Fz", "Enc"] }), ["Fz", "Enc"]);
  });

  it("takes stamps from a dataset of texts", async () => {
    const table = await readFormat(file, { columns: ["run/forces/Fx"], clock: { kind: "iso", column: "run/stamp" } });
    expect(table.startedAt).toBe("2026-10-01T08:00:00.000Z");
    expect([...table.timesS]).toEqual(truth.t);
  });

  it("unpacks by scale_factor and add_offset, and asks what a gain is for", async () => {
    const packed = await readFormat(file, { columns: ["packed"], clock: time });
    expect([...(packed.columns[0]?.samples ?? [])]).toEqual(truth.Fz);
    expect(await refusalOf(file, { columns: ["raw"], clock: time })).toMatchObject([{ code: "stored-gain", at: 'logs/R07, column "raw"', message: expect.stringContaining("gain 0.25 (offset -150)") }]);
    const counts = truth.Fz.map((value) => (value + 150) * 4);
    const gained = async (storedGain: "multiply" | "divide" | "ignore"): Promise<number[]> => [...((await readFormat(file, { columns: ["raw"], clock: time, storedGain })).columns[0]?.samples ?? [])];
    expect(await gained("multiply")).toEqual(truth.Fz);
    expect(await gained("divide")).toEqual(counts.map((value) => (value + 150) / 0.25));
    expect(await gained("ignore")).toEqual(counts);
  });

  it("refuses a filter that the library does not carry, instead of the numbers it would give", async () => {
    expect(await refusalOf(file, { columns: ["lzf"], clock: time })).toMatchObject([{ code: "unreadable-column", message: expect.stringContaining("data packed with lzf (number 32000)") }]);
  });

  it.each([
    ["run/broken", "a link that leads to nothing in this file"],
    ["run/other", "a link that leads to nothing in this file"],
    ["run/block", "an array of 2×3×4"],
  ])("refuses %s", async (column, message) => {
    expect(await refusalOf(file, { columns: [column], clock: time })).toMatchObject([{ code: "unreadable-column", message: expect.stringContaining(message) }]);
  });

  it("refuses counts that no double holds, and columns of another length", async () => {
    expect((await refusalOf(file, { columns: ["run/big"], clock: time }))[0]?.message).toContain("the whole number 1152921504606846976 is too large to be held exactly");
    expect(await refusalOf(file, { columns: ["run/short"], clock: time })).toMatchObject([{ code: "unequal-length", message: 'expected columns of one length, found 200 rows of "run/t", 50 rows of "run/short"' }]);
  });

  it("shows both where a name means two datasets", async () => {
    expect(await refusalOf(file, { columns: ["Fz"], clock: time })).toMatchObject([{ code: "ambiguous-column", message: 'expected one column "Fz", found "run/forces/Fz", "run/table/Fz"' }]);
  });

  it("says what is inside", async () => {
    const contents = await hdf5.contents?.(formatFile(file), "log.h5");
    const all = contents?.parts.flatMap(({ columns }) => columns);
    expect(all).toContainEqual({ name: "run/forces/Fx", unit: "N", rows: 200, type: "64-bit float 200" });
    expect(all).toContainEqual({ name: "run/forces/packed", unit: "N", rows: 200, type: "16-bit whole number 200, packed as × 0.25, + -150" });
    expect(all?.find(({ name }) => name === "run/lzf")?.type).toContain("lzf");
  });
});
