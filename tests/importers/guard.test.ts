import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import { guardedImporter } from "../../src/importers/guard.ts";
import { isParquet } from "../../src/importers/signatures.ts";
import { elapsed, expectTruth, formatFile } from "./formatTruth.ts";

const bytes = formatFile("parquet/zstd.parquet");
const options = { ...elapsed };

describe("reading in a thread of its own", () => {
  it("gives up a file that takes too long, and reads the next", async () => {
    const hasty = guardedImporter("Parquet", isParquet, { heapMb: 512, baseS: 0.001, perMegabyteS: 0 });
    await expect(hasty.read(bytes, "logs/x", options)).rejects.toThrow("logs/x: expected a whole Parquet file, found one that cannot be read: it was not read within 0 s");
    expectTruth(await guardedImporter("Parquet", isParquet).read(bytes, "logs/x", options));
  });

  it("gives up a file that takes too much memory, and reads the next", async () => {
    const small = guardedImporter("Parquet", isParquet, { heapMb: 4, baseS: 60, perMegabyteS: 0 });
    await expect(small.read(bytes, "logs/x", options)).rejects.toThrow(/more than \d+ MB of memory/);
    expectTruth(await guardedImporter("Parquet", isParquet).read(bytes, "logs/x", options));
  });

  it("reads several files at once, each with its own answer", async () => {
    const reader = guardedImporter("Parquet", isParquet);
    const [first, second, refused] = await Promise.allSettled([reader.read(bytes, "a", options), reader.read(bytes, "b", { ...options, columns: ["Fz"] }), reader.read(bytes.slice(0, 1000), "c", options)]);
    expect(first).toMatchObject({ status: "fulfilled", value: { source: { file: "a" } } });
    expect(second).toMatchObject({ status: "fulfilled", value: { source: { file: "b" }, columns: [{ name: "Fz" }] } });
    expect(refused.status === "rejected" && refused.reason instanceof InputError && refused.reason.issues[0]?.at).toBe("c");
  });
});
