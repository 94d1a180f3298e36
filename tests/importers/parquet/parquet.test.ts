import { describe, expect, it } from "vitest";
import { parquet } from "../../../src/importers/parquet/parquet.ts";
import { expectTruth, formatFile, readFormat, refusalOf, truth } from "../formatTruth.ts";

const file = "parquet/zstd.parquet";

describe("Parquet, as DuckDB writes it", () => {
  it.each(["zstd", "snappy", "gzip", "uncompressed", "lz4_raw"])("reads %s with units from headings and from the Arrow schema beside the data", async (codec) => {
    const table = await readFormat(`parquet/${codec}.parquet`);
    expectTruth(table);
    expect(table.columns.map(({ unit }) => unit)).toEqual(["N", "N", "count"]);
    expect(table.metadata).toContainEqual(["run", "R07"]);
    expect(table.source.format).toContain("Parquet; ");
  });

  it("puts groups of rows where they belong", async () => {
    const table = await readFormat("parquet/groups.parquet", { columns: ["F"] });
    expect(table.evidence[0]).toContain("6500 rows in 4 groups");
    expect([...table.timesS]).toEqual(Array.from({ length: 6500 }, (_, i) => i / 1000));
    expect([...(table.columns[0]?.samples ?? [])]).toEqual(Array.from({ length: 6500 }, (_, i) => i * 0.25));
  });

  it("reads exact decimals and switches", async () => {
    const [fz, sw] = (await readFormat(file, { columns: ["exactFz", "sw"] })).columns.map(({ samples }) => [...samples]);
    expect(fz).toEqual(truth.Fz);
    expect(sw).toEqual(truth.t.map((_, i) => (i % 2 === 0 ? 1 : 0)));
  });

  it("reads time stamps in UTC, and those without a zone only with one", async () => {
    const zoned = await readFormat(file, { clock: { kind: "stamp", column: "stamp" } });
    expectTruth(zoned);
    expect(zoned.startedAt).toBe("2026-10-01T08:00:00.000Z");
    const wall = await readFormat(file, { clock: { kind: "stamp", column: "wall", zone: "Europe/Oslo" } });
    expectTruth(wall);
    expect(wall.startedAt).toBe("2026-10-01T08:00:00.000+02:00");
    expect(await refusalOf(file, { clock: { kind: "stamp", column: "wall" } })).toMatchObject([{ code: "incomplete-clock" }]);
  });

  it("refuses what is no column of numbers, with its place", async () => {
    expect(await refusalOf(file, { columns: ["pair"] })).toMatchObject([{ code: "unreadable-column", at: 'logs/R07, column "pair"', message: expect.stringContaining("found fields within fields") }]);
    expect((await refusalOf(file, { columns: ["note"] }))[0]).toMatchObject({ at: 'logs/R07 row 1, column "note"', message: 'expected a number, found "row 0"' });
    expect(await refusalOf(file, { columns: ["big"] })).toMatchObject([{ code: "damaged-file", message: expect.stringContaining("too large to be held exactly") }]);
    expect(await refusalOf(file, { columns: ["stamp"] })).toMatchObject([{ code: "stamp-as-number" }]);
    expect(await refusalOf(file, { columns: ["Fy"] })).toMatchObject([{ code: "missing-column", message: expect.stringContaining('found "t", "Fx [N]", "Fz"') }]);
  });

  it("says what is inside", async () => {
    const contents = await parquet.contents?.(formatFile(file), "log.parquet");
    expect(contents?.parts[0]?.columns).toEqual(expect.arrayContaining([{ name: "Fx [N]", unit: "N", rows: 200, type: "64-bit float" }, { name: "stamp", unit: null, rows: 200, type: "time stamp in UTC" }]));
  });
});
