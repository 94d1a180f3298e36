import { deflateSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { matFive } from "../../../src/importers/mat/matFive.ts";
import { matVariables } from "../../../src/importers/mat/matVariables.ts";
import { expectTruth, formatFile, readFormat, refusalOf, truth } from "../formatTruth.ts";

describe("MAT version 5, as SciPy writes it", () => {
  it("reads a packed struct of arrays, its units and its texts", async () => {
    const table = await readFormat("mat/struct.mat");
    expectTruth(table);
    expect(table.columns.map(({ unit }) => unit)).toEqual(["N", "N", "count"]);
    expect(table.metadata).toContainEqual(["log.run", "R07"]);
    expect(table.source.format).toBe("MAT version 5; packed");
  });

  it("reads arrays of their own, the columns and the rows of matrices, whole numbers and switches", async () => {
    const table = await readFormat("mat/plain.mat", { columns: ["both(:,1)", "both(:,2)", "lying(2,:)", "Enc64", "sw"] });
    const [first, second, lying, count, sw] = table.columns.map(({ samples }) => [...samples]);
    expect(first).toEqual(truth.Fx.map((value) => (Number.isNaN(value) ? 0 : value)));
    expect(second).toEqual(truth.Fz);
    expect(lying).toEqual(truth.Fz.map((value) => value + 1));
    expect(count).toEqual(truth.Enc);
    expect(sw).toEqual(truth.Enc.map((value) => (value % 2 === 0 ? 1 : 0)));
  });

  it("takes whole paths, a part and the last step of a path", async () => {
    expectTruth(await readFormat("mat/struct.mat", { columns: ["log.Fx", "log.Fz"], clock: { kind: "elapsed", column: "log.t", unit: "s" } }), ["Fx", "Fz"]);
    expectTruth(await readFormat("mat/struct.mat", { part: "log" }));
  });

  it("refuses what is no column, with its name", async () => {
    expect(await refusalOf("mat/plain.mat", { columns: ["cells"] })).toMatchObject([{ code: "unreadable-column", at: 'logs/R07, column "cells"', message: "expected a column that can be read, found a cell array" }]);
    expect(await refusalOf("mat/plain.mat", { columns: ["complexOnes"] })).toMatchObject([{ code: "unreadable-column", message: expect.stringContaining("complex numbers") }]);
    expect(await refusalOf("mat/plain.mat", { columns: ["Fx"] })).toMatchObject([{ code: "missing-column", message: expect.stringContaining('"both(:,1)", "both(:,2)"') }]);
    expect(await refusalOf("mat/struct.mat", { part: "other" })).toMatchObject([{ code: "missing-part", message: 'expected a group "other", found "log", "log.units"' }]);
    expect(await refusalOf("mat/plain.mat", { columns: ["both(:,1)"], clock: { kind: "rate", rateHz: 0.5 }, delimiter: ",", headerLine: 2 })).toMatchObject([{ code: "not-a-text-log", message: expect.stringContaining("delimiter: is declared") }, { code: "not-a-text-log", message: expect.stringContaining("headerLine: is declared") }]);
  });

  it("refuses version 4 in plain words", async () => {
    expect(await refusalOf("mat/version4.mat")).toMatchObject([{ code: "unknown-format", message: expect.stringContaining("a MAT file of version 4"), hint: expect.stringContaining("version 5") }]);
  });

  it("refuses a file cut short, and one that unpacks without end", async () => {
    const whole = formatFile("mat/plain.mat");
    expect(await refusalOf(whole.subarray(0, 1000), { columns: ["both(:,1)"] })).toMatchObject([{ code: "damaged-file", message: expect.stringContaining("the file ends inside") }]);
    const packed = deflateSync(new Uint8Array(1_000_000));
    const tag = new Uint8Array(8);
    new DataView(tag.buffer).setUint32(0, 15, true);
    new DataView(tag.buffer).setUint32(4, packed.length, true);
    const bomb = Buffer.concat([whole.subarray(0, 128), tag, packed]);
    expect(() => matVariables(bomb, 999_999)).toThrow("it unpacks to more than 999999 bytes");
  });

  it("says what is inside", async () => {
    const contents = await matFive.contents?.(formatFile("mat/struct.mat"), "a.mat");
    expect(contents?.parts[1]).toMatchObject({ name: "log", columns: expect.arrayContaining([{ name: "log.Fx", unit: "N", rows: 200, type: "double 1×200" }]) });
  });
});
