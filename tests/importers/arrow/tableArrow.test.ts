import { tableFromIPC } from "apache-arrow";
import { expect, test } from "vitest";
import { finding } from "../../../src/core/finding.ts";
import { arrowToTable, tableToArrow } from "../../../src/importers/arrow/tableArrow.ts";
import type { RawTable } from "../../../src/importers/contract.ts";

const table: RawTable = {
  timesS: Float64Array.of(0, 0.1, 0.30000000000000004),
  startedAt: "2026-10-01T08:00:00.000+02:00",
  columns: [
    { name: "F", unit: "N", samples: Float64Array.of(Number.NaN, -0, 1e-320), overloaded: [1] },
    // a heading may stand twice, and a file need not state a unit
    { name: "F", unit: null, samples: Float64Array.of(Infinity, -Infinity, Number.MAX_VALUE), overloaded: [] },
  ],
  metadata: [["Run", "R07"], ["", "µ – 𝛼 \u0000 \"quoted\""]],
  evidence: ["decimal comma"],
  source: { file: "logs/R07.csv", sha256: "ab", format: "text", bytes: 12, rowsRead: 3, rowsRefused: 0 },
  findings: [finding("odd", "look", "odd", { measured: Infinity, limit: -0, fromS: Number.NaN })],
};

test("a table comes back bit for bit", async () => {
  const back = await arrowToTable(await tableToArrow(table));
  expect(back).toStrictEqual(table);
  const bits = (samples: RawTable["timesS"]): bigint[] => [...new BigUint64Array(Float64Array.from(samples).buffer)];
  expect(back.columns.map(({ samples }) => bits(samples))).toEqual(table.columns.map(({ samples }) => bits(samples)));
});

test("from wherever its bytes stand", async () => {
  const bytes = await tableToArrow(table);
  for (const shift of [0, 1, 96]) {
    const room = new Uint8Array(bytes.length + shift);
    room.set(bytes, shift);
    expect(await arrowToTable(room.subarray(shift))).toStrictEqual(table);
  }
});

test("it is an Arrow file of doubles to others", async () => {
  const read = tableFromIPC(await tableToArrow(table));
  expect([read.numRows, read.numCols, String(read.schema.fields[2]?.type)]).toEqual([3, 3, "Float64"]);
});

test("samples of another kind come back as the same numbers", async () => {
  const { columns, ...rest } = table;
  const counts = { name: "n", unit: "count", samples: Int32Array.of(-7, 0, 2_000_000_000), overloaded: [] };
  const back = await arrowToTable(await tableToArrow({ ...rest, columns: [...columns, counts] }));
  expect([...(back.columns[2]?.samples ?? [])]).toEqual([-7, 0, 2_000_000_000]);
});
