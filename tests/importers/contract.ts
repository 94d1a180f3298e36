import { createHash } from "node:crypto";
import { expect } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import type { Importer, RawTable, ReadOptions } from "../../src/importers/contract.ts";

/** A good file of a format, and what is known about it. */
export interface Sample {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly options: ReadOptions;
  readonly rows: number;
  /** the same file with text where a wanted number stands; null where the format cannot hold text there */
  readonly withText: Uint8Array | null;
}

/** A rule that every importer keeps. */
export type Rule = (importer: Importer, sample: Sample) => void;

export const rules: Readonly<Record<string, Rule>> = { recognised, sameBytesSameResult, rowsAndHash, wantedColumnsInOrder, inputUnchanged, truncationIsSurvived, textIsRefused, missingColumnIsRefused, emptyIsRefused, plainData };

function recognised(importer: Importer, { bytes }: Sample): void {
  expect(importer.sniff(bytes.subarray(0, 65_536), "logs/x")).toBe(true);
}

function sameBytesSameResult(importer: Importer, { bytes, options }: Sample): void {
  expect(importer.read(bytes, "logs/x", options)).toEqual(importer.read(bytes.slice(), "logs/x", options));
}

function rowsAndHash(importer: Importer, { bytes, options, rows }: Sample): void {
  const table = importer.read(bytes, "logs/x", options);
  expect(table.source).toMatchObject({ file: "logs/x", bytes: bytes.length, rowsRead: rows, sha256: createHash("sha256").update(bytes).digest("hex") });
  expect(table.timesS.length).toBe(rows);
  for (const column of table.columns) expect(column.samples.length).toBe(rows);
  expect(table.evidence.length).toBeGreaterThan(0);
}

function wantedColumnsInOrder(importer: Importer, { bytes, options }: Sample): void {
  const reversed = { ...options, columns: [...options.columns].reverse() };
  expect(importer.read(bytes, "logs/x", options).columns.map((column) => column.name)).toEqual(options.columns);
  expect(importer.read(bytes, "logs/x", reversed).columns.map((column) => column.name)).toEqual(reversed.columns);
}

function inputUnchanged(importer: Importer, { bytes, options }: Sample): void {
  const before = createHash("sha256").update(bytes).digest("hex");
  importer.read(bytes, "logs/x", options);
  expect(createHash("sha256").update(bytes).digest("hex")).toBe(before);
}

/** A logger may lose power at any byte: what is left gives its whole rows or a plain refusal, never a crash or a made-up number. */
function truncationIsSurvived(importer: Importer, { bytes, options }: Sample): void {
  const whole = importer.read(bytes, "logs/x", options);
  for (let length = 0; length < bytes.length; length += 64) {
    const table = resultOrRefusal(importer, bytes.subarray(0, length), options);
    if (table === null) continue;
    expect(table.timesS.length).toBeLessThanOrEqual(whole.timesS.length);
    expect([...table.timesS]).toEqual([...whole.timesS.subarray(0, table.timesS.length)]);
    table.columns.forEach((column, index) => expect([...column.samples]).toEqual([...(whole.columns[index]?.samples.subarray(0, column.samples.length) ?? [])]));
  }
}

function textIsRefused(importer: Importer, { withText, options }: Sample): void {
  if (withText !== null) expect(() => importer.read(withText, "logs/x", options)).toThrow(InputError);
}

function missingColumnIsRefused(importer: Importer, { bytes, options }: Sample): void {
  expect(() => importer.read(bytes, "logs/x", { ...options, columns: ["no such column"] })).toThrow(/no such column/);
}

function emptyIsRefused(importer: Importer, { options }: Sample): void {
  expect(() => importer.read(new Uint8Array(0), "logs/x", options)).toThrow(InputError);
}

function plainData(importer: Importer, { bytes, options }: Sample): void {
  const { columns, timesS, ...rest } = importer.read(bytes, "logs/x", options);
  expect(JSON.parse(JSON.stringify(rest))).toEqual(rest);
  expect([timesS.length, columns.length]).not.toContain(0);
}

function resultOrRefusal(importer: Importer, bytes: Uint8Array, options: ReadOptions): RawTable | null {
  try {
    return importer.read(bytes, "logs/x", options);
  } catch (error) {
    if (error instanceof InputError && error.issues.length > 0) return null;
    throw error;
  }
}
