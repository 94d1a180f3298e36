import { createHash } from "node:crypto";
import type { RawTable, ReadOptions } from "../contract.ts";
import { imageGrid } from "./imageGrid.ts";
import { textGrid } from "./textGrid.ts";

/** A pressure pad's matrix or a photograph as a table: a column of the grid a column, called #1, #2 … from the left; the "time" of a row is its number. @throws InputError */
export function readGrid(bytes: Uint8Array, fileName: string, options: ReadOptions): RawTable {
  const { rows, columns, values, format } = options.grid === "image" ? imageGrid(bytes, fileName) : textGrid(bytes, fileName, options);
  return {
    timesS: Float64Array.from({ length: rows }, (_, row) => row),
    startedAt: null,
    columns: Array.from({ length: columns }, (_, column) => ({ name: `#${column + 1}`, unit: null, samples: Float64Array.from({ length: rows }, (__, row) => values[row * columns + column] as number), overloaded: [] })),
    metadata: [],
    evidence: [format],
    source: { file: fileName, sha256: createHash("sha256").update(bytes).digest("hex"), format, bytes: bytes.length, rowsRead: rows, rowsRefused: 0 },
    findings: [],
  };
}
