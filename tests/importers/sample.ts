import { InputError } from "../../src/core/errors.ts";
import type { Issue } from "../../src/core/errors.ts";
import type { RawTable, ReadOptions } from "../../src/importers/contract.ts";
import { readBytes } from "../../src/importers/readLog.ts";

/** Options of a log with elapsed time in `t` and one column `F`. */
export const plain: ReadOptions = { clock: { kind: "elapsed", column: "t", unit: "s" }, columns: ["F"], missing: [], overload: [] };

export function utf8(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

export function utf16(text: string, order: "le" | "be", mark = true): Uint8Array {
  const bytes = Buffer.from(mark ? `\ufeff${text}` : text, "utf16le");
  return new Uint8Array(order === "le" ? bytes : bytes.swap16());
}

export function read(text: string | Uint8Array, options: Partial<ReadOptions> = {}): RawTable {
  return readBytes(typeof text === "string" ? utf8(text) : text, "logs/R07.txt", { ...plain, ...options });
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
