import { Field, Float64, Schema, Table, tableToIPC } from "apache-arrow";
import { describe, expect, it } from "vitest";
import { arrowIpc } from "../../../src/importers/arrow/arrowIpc.ts";
import { expectTruth, formatFile, readFormat, refusalOf } from "../formatTruth.ts";

describe("Arrow IPC", () => {
  it.each(["arrow/log.arrow", "arrow/stream.arrows"])("reads %s, its units and its own metadata", async (file) => {
    const table = await readFormat(file);
    expectTruth(table);
    expect(table.columns.map(({ unit }) => unit)).toEqual(["N", "N", "count"]);
    expect(table.metadata).toContainEqual(["run", "R07"]);
    expect(table.evidence[0]).toBe("Arrow IPC: 200 rows in 2 batches");
  });

  it("reads time stamps stored and written", async () => {
    const zoned = await readFormat("arrow/log.arrow", { clock: { kind: "stamp", column: "stamp" } });
    expectTruth(zoned);
    expect(zoned.startedAt).toBe("2026-10-01T08:00:00.000Z");
    const text = await readFormat("arrow/log.arrow", { clock: { kind: "iso", column: "text" } });
    expectTruth(text);
    expect(await refusalOf("arrow/log.arrow", { clock: { kind: "stamp", column: "text" } })).toMatchObject([{ code: "no-stored-stamp", hint: "Declare clock: with kind iso or wall in rig.yaml" }]);
  });

  it("refuses stamps and texts as numbers", async () => {
    expect(await refusalOf("arrow/log.arrow", { columns: ["stamp"] })).toMatchObject([{ code: "stamp-as-number" }]);
    expect((await refusalOf("arrow/log.arrow", { columns: ["text"] })).at(-1)).toMatchObject({ code: "more-issues", message: expect.stringContaining("180 more") });
  });

  it("refuses more columns than the library can take, before it reads them", async () => {
    const fields = Array.from({ length: 20_001 }, (_, place) => new Field(`c${place}`, new Float64(), false));
    const bytes = tableToIPC(new Table(new Schema(fields)), "stream");
    await expect(arrowIpc.contents?.(bytes, "log.arrow")).rejects.toMatchObject({ issues: [{ code: "damaged-file", message: expect.stringContaining("more than 20000 columns") }] });
  });

  it("says what is inside", async () => {
    const contents = await arrowIpc.contents?.(formatFile("arrow/log.arrow"), "log.arrow");
    expect(contents?.parts[0]?.columns).toContainEqual({ name: "Fz", unit: "N", rows: 200, type: "Float32" });
  });
});
