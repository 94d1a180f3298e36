import { deflateSync } from "node:zlib";
import { readFileSync, rmSync } from "node:fs";
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import * as h5 from "h5wasm";
import { parquetMetadata } from "hyparquet";
import { describe, expect, it } from "vitest";
import { checkPages } from "../../src/importers/parquet/checkPages.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { formatFile, readFormat, refusalOf } from "./formatTruth.ts";

const asked = { columns: ["F"] };

/** A Parquet file by DuckDB. */
async function parquet(select: string, packing = "zstd"): Promise<Uint8Array> {
  const folder = mkdtempSync(join(tmpdir(), "drawbar-unpacking-"));
  try {
    const connection = await (await DuckDBInstance.create(":memory:")).connect();
    await connection.run(`COPY (${select}) TO '${folder}/made.parquet' (FORMAT parquet, COMPRESSION ${packing})`);
    return new Uint8Array(readFileSync(`${folder}/made.parquet`));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** An HDF5 file by the HDF5 library. */
async function hdf5(fill: (file: h5.File) => void): Promise<Uint8Array> {
  const { FS } = await h5.ready;
  const { readFile, unlink } = FS as { readFile(path: string): Uint8Array; unlink(path: string): void };
  const file = new h5.File("/bomb.h5", "w");
  fill(file);
  file.close();
  const bytes = readFile("/bomb.h5").slice();
  unlink("/bomb.h5");
  return bytes;
}

describe("a small file that unfolds to very much is refused before room is made for it", () => {
  it("Parquet: one value in 9 million rows", async () => {
    const bytes = await parquet("SELECT 1.0::DOUBLE AS t, 2.0::DOUBLE AS F FROM range(9000000)");
    expect(bytes.length).toBeLessThan(200_000);
    expect(await refusalOf(bytes, asked)).toMatchObject([{ code: "unpacks-too-far", at: 'logs/R07, column "F"', message: expect.stringMatching(/at most \d+ MB \(64 MB and 100 times the file, at most 1 GiB, or 24 times the file\), found 144 MB: 9,000,000 rows in a file of \d+ kB/) }]);
  });

  it("Parquet: long texts that pack to nothing", async () => {
    const bytes = await parquet("SELECT i::DOUBLE AS F, i || repeat('x', 1000000) AS stamp FROM range(80) AS rows(i)");
    expect(bytes.length).toBeLessThan(100_000);
    expect(await refusalOf(bytes, { ...asked, clock: { kind: "iso", column: "stamp" } })).toMatchObject([{ code: "damaged-file", at: "logs/R07", message: expect.stringMatching(/column "stamp" unpacks to \d+ bytes or more, and may to \d+/) }]);
  });

  it("Parquet: pages that hold more values than the file has rows", () => {
    const bytes = formatFile("parquet/uncompressed.parquet");
    const { row_groups: groups, ...rest } = parquetMetadata(bytes.buffer as ArrayBuffer);
    const fewer = { ...rest, row_groups: groups.map((group) => ({ ...group, num_rows: 150n })) };
    expect(() => checkPages(bytes, { ...rest, row_groups: groups }, "Fz")).not.toThrow();
    expect(() => checkPages(bytes, fewer, "Fz")).toThrow("pages with 200 values or more for 150 rows");
  });

  it("HDF5: rows that were never written", async () => {
    const bytes = await hdf5((file) => {
      for (const name of ["t", "F"]) file.create_dataset({ name, data: new Float64Array(10), maxshape: [null], chunks: [1000] }).resize([100_000_000]);
    });
    expect(bytes.length).toBeLessThan(50_000);
    expect(await refusalOf(bytes, asked)).toMatchObject([{ code: "unpacks-too-far", at: 'logs/R07, column "F"', message: expect.stringContaining("found 1,600 MB: 100,000,000 rows") }]);
  });

  it("HDF5: a chunk that unpacks to more than it says", async () => {
    const random = seededRandom(3);
    const noise = Float64Array.from({ length: 30_000 }, () => random.uniform());
    const bytes = await hdf5((file) => {
      file.create_dataset({ name: "t", data: Float64Array.from(noise, (_, i) => i) });
      file.create_dataset({ name: "F", data: noise, chunks: [noise.length], compression: 1 });
    });
    const good = await readFormat(bytes.slice(), asked);
    expect(good.columns[0]?.samples[7]).toBe(noise[7]);
    const bomb = deflateSync(new Uint8Array(200_000_000), { level: 6 });
    const at = chunkAt(bytes);
    expect(bomb.length).toBeLessThan(8 * noise.length);
    bytes.set(bomb, at);
    expect(await refusalOf(bytes, asked)).toMatchObject([{ code: "damaged-file", at: "logs/R07", message: expect.stringMatching(/unpacking it takes more than \d+ bytes of memory/) }]);
    // The library is fresh for the next file.
    expect((await readFormat("hdf5/log.h5", { part: "run", columns: ["forces/Fx"], clock: { kind: "elapsed", column: "run/t", unit: "s" } })).timesS.length).toBe(200);
  });
});

/** The one long stream of zlib in the file: noise packs by an eighth at most. */
function chunkAt(bytes: Uint8Array): number {
  for (let at = bytes.length - 200_000; at >= 0; at--) if (bytes[at] === 0x78 && bytes[at + 1] === 0x01) return at;
  throw new Error("no packed chunk");
}
