import { readFileSync } from "node:fs";
import { expect } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import type { Issue } from "../../src/core/errors.ts";
import type { RawTable, ReadOptions } from "../../src/importers/contract.ts";
import { readBytes } from "../../src/importers/readLog.ts";

/** The invented log that the outside writers were given (scripts/fixtures/truth.py): every number is exact in binary. */
const rows = 200;
const from = (value: (i: number) => number): number[] => Array.from({ length: rows }, (_, i) => value(i));
export const truth = {
  rows,
  t: from((i) => i / 100),
  Fx: from((i) => (i === 40 ? Number.NaN : 20 + ((i * 37) % 101) * 0.125)),
  Fz: from((i) => -150 + ((i * 53) % 97) * 0.25),
  Enc: from((i) => (i * 311) % 65_536),
} as const;

export function formatFile(name: string): Uint8Array {
  return new Uint8Array(readFileSync(new URL(`../../fixtures/formats/${name}`, import.meta.url)));
}

export const elapsed: ReadOptions = { clock: { kind: "elapsed", column: "t", unit: "s" }, columns: ["Fx", "Fz", "Enc"], missing: [], overload: [] };

export async function readFormat(file: string | Uint8Array, options: Partial<ReadOptions> = {}): Promise<RawTable> {
  return readBytes(typeof file === "string" ? formatFile(file) : file, "logs/R07", { ...elapsed, ...options });
}

/** The issues with which a file is refused; fails where it is not. */
export async function refusalOf(file: string | Uint8Array, options: Partial<ReadOptions> = {}): Promise<readonly Issue[]> {
  try {
    await readFormat(file, options);
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  throw new Error("expected the log to be refused, it was read");
}

/** Holds a table against what its writer was given, number by number. */
export function expectTruth(table: RawTable, names: readonly (keyof typeof truth & string)[] = ["Fx", "Fz", "Enc"]): void {
  expect([...table.timesS]).toEqual(truth.t);
  names.forEach((name, index) => expect([...(table.columns[index]?.samples ?? [])], name).toEqual(truth[name]));
}
