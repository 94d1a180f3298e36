import { describe, expect, it } from "vitest";
import { matSevenThree } from "../../../src/importers/hdf5/matSevenThree.ts";
import { expectTruth, formatFile, readFormat, refusalOf, truth } from "../formatTruth.ts";

const file = "mat/version73.mat";

describe("MAT version 7.3, as hdf5storage writes it", () => {
  it("reads a struct of arrays, its units and its texts", async () => {
    const table = await readFormat(file, { part: "log" });
    expectTruth(table);
    expect(table.columns.map(({ unit }) => unit)).toEqual(["N", "N", "count"]);
    expect(table.metadata).toContainEqual(["log.run", "R07"]);
  });

  it("turns sizes round: a matrix of 200 rows has two columns", async () => {
    const table = await readFormat(file, { columns: ["both(:,1)", "both(:,2)", "sw"], clock: { kind: "elapsed", column: "log.t", unit: "s" } });
    const [first, second, sw] = table.columns.map(({ samples }) => [...samples]);
    expect(first).toEqual(truth.Fx.map((value) => (Number.isNaN(value) ? 0 : value)));
    expect(second).toEqual(truth.Fz);
    expect(sw).toEqual(truth.Enc.map((value) => (value % 2 === 0 ? 1 : 0)));
  });

  it("takes a whole path before the last step of one, and says what is inside", async () => {
    expectTruth(await readFormat(file));
    expect(await refusalOf(file, { columns: ["log.units"] })).toMatchObject([{ code: "missing-column" }]);
    const contents = await matSevenThree.contents?.(formatFile(file), "a.mat");
    expect(contents?.parts.flatMap(({ columns }) => columns)).toContainEqual({ name: "log.Fx", unit: "N", rows: 200, type: "64-bit float 200×1" });
  });
});
