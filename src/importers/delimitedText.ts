import { createHash } from "node:crypto";
import { InputError } from "../core/errors.ts";
import { chooseReading } from "./chooseReading.ts";
import type { Importer, RawTable, ReadOptions } from "./contract.ts";
import { decode } from "./decode.ts";
import { glanceAt, inMemory } from "./lines.ts";
import { numericRows } from "./numericRows.ts";
import { rowReader } from "./rowReader.ts";
import { textTable } from "./textTable.ts";

/** Text logs: one row a sample, cells between delimiters, headings above. */
export const delimitedText: Omit<Importer, "read"> & { read(bytes: Uint8Array, fileName: string, options: ReadOptions): RawTable } = {
  format: "delimited text",
  contents: null,
  sniff(head, fileName) {
    return "bytes" in decode(head, fileName);
  },
  read(bytes, fileName, options) {
    if (bytes.length === 0) throw new InputError([{ code: "empty-file", at: fileName, message: "expected a log, found an empty file", hint: "Copy the log again, or exclude the run in runs.csv" }]);
    const file = decode(bytes, fileName, options.encoding);
    if (!("bytes" in file)) throw new InputError([file]);
    const log = { fileName, options, choice: chooseReading(glanceAt(inMemory(file)), fileName, options) };
    const { plan, stamps } = rowReader(log, file);
    const rows = numericRows(plan);
    const sha256 = createHash("sha256").update(bytes).digest("hex");
    return textTable(log, { ...rows, startedAt: stamps?.startedAt() ?? null, midnights: stamps?.midnights() ?? 0 }, { bytes: bytes.length, sha256, encoding: file.encoding, evidence: file.evidence });
  },
};
