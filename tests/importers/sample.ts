import { InputError } from "../../src/core/errors.ts";
import type { Issue } from "../../src/core/errors.ts";
import type { RawTable, ReadOptions } from "../../src/importers/contract.ts";
import { delimitedText } from "../../src/importers/delimitedText.ts";
import { emptyFile } from "../../src/importers/readLog.ts";
import { formatOf, unknownFormat } from "../../src/importers/registry.ts";

/** Options of a log with elapsed time in `t` and one column `F`. */
export const plain: ReadOptions = { clock: { kind: "elapsed", column: "t", unit: "s" }, columns: ["F"], missing: [], overload: [] };

export function utf8(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

export function utf16(text: string, order: "le" | "be", mark = true): Uint8Array {
  const bytes = Buffer.from(mark ? `\ufeff${text}` : text, "utf16le");
  return new Uint8Array(order === "le" ? bytes : bytes.swap16());
}

/** Reads a text log as `readBytes` does, at once. */
export function read(text: string | Uint8Array, options: Partial<ReadOptions> = {}): RawTable {
  const bytes = typeof text === "string" ? utf8(text) : text;
  const name = "logs/R07.txt";
  if (bytes.length === 0) throw emptyFile(name);
  if (formatOf(bytes, name)?.format !== delimitedText.format) throw new InputError([unknownFormat(bytes, name)]);
  return delimitedText.read(bytes, name, { ...plain, ...options });
}

export function numbers(table: RawTable, column = 0): number[] {
  return [...(table.columns[column]?.samples ?? [])];
}

/** The issues with which a log is refused; fails where it is not. */
export function refusal(text: string | Uint8Array, options: Partial<ReadOptions> = {}): readonly Issue[] {
  try {
    read(text, options);
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  throw new Error("expected the log to be refused, it was read");
}
