import { createHash } from "node:crypto";
import { expect } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import type { Importer, RawTable, ReadOptions } from "../../src/importers/contract.ts";
import { formatOf } from "../../src/importers/registry.ts";
import { seededRandom } from "../../src/numerics/random.ts";

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
export type Rule = (importer: Importer, sample: Sample) => Promise<void>;

export const rules: Readonly<Record<string, Rule>> = { recognised, sameBytesSameResult, rowsAndHash, wantedColumnsInOrder, inputUnchanged, truncationIsSurvived, flippedBytesAreSurvived, textIsRefused, missingColumnIsRefused, emptyIsRefused, plainData };

async function recognised(importer: Importer, { bytes }: Sample): Promise<void> {
  expect(importer.sniff(bytes.subarray(0, 65_536), "logs/x")).toBe(true);
  expect(formatOf(bytes.subarray(0, 65_536), "logs/x")?.format).toBe(importer.format);
}

async function sameBytesSameResult(importer: Importer, { bytes, options }: Sample): Promise<void> {
  expect(await importer.read(bytes, "logs/x", options)).toEqual(await importer.read(bytes.slice(), "logs/x", options));
}

async function rowsAndHash(importer: Importer, { bytes, options, rows }: Sample): Promise<void> {
  const table = await importer.read(bytes, "logs/x", options);
  expect(table.source).toMatchObject({ file: "logs/x", bytes: bytes.length, rowsRead: rows, sha256: createHash("sha256").update(bytes).digest("hex") });
  expect(table.timesS.length).toBe(rows);
  for (const column of table.columns) expect(column.samples.length).toBe(rows);
  expect(table.evidence.length).toBeGreaterThan(0);
}

async function wantedColumnsInOrder(importer: Importer, { bytes, options }: Sample): Promise<void> {
  const reversed = { ...options, columns: [...options.columns].reverse() };
  expect((await importer.read(bytes, "logs/x", options)).columns.map((column) => column.name)).toEqual(options.columns);
  expect((await importer.read(bytes, "logs/x", reversed)).columns.map((column) => column.name)).toEqual(reversed.columns);
}

async function inputUnchanged(importer: Importer, { bytes, options }: Sample): Promise<void> {
  const before = createHash("sha256").update(bytes).digest("hex");
  await importer.read(bytes, "logs/x", options);
  expect(createHash("sha256").update(bytes).digest("hex")).toBe(before);
}

/** A logger may lose power at any byte: what is left gives its whole rows or a plain refusal, never a crash or a made-up number. */
async function truncationIsSurvived(importer: Importer, { bytes, options }: Sample): Promise<void> {
  const whole = await importer.read(bytes, "logs/x", options);
  for (let length = 0; length < bytes.length; length += 64) {
    const table = await resultOrRefusal(importer, bytes.slice(0, length), options);
    if (table === null) continue;
    expect(table.timesS.length).toBeLessThanOrEqual(whole.timesS.length);
    expect([...table.timesS]).toEqual([...whole.timesS.subarray(0, table.timesS.length)]);
    table.columns.forEach((column, index) => expect([...column.samples]).toEqual([...(whole.columns[index]?.samples.subarray(0, column.samples.length) ?? [])]));
  }
}

/** A bad disk or card may change any byte: a refusal or a table, never a crash or a hang. */
async function flippedBytesAreSurvived(importer: Importer, { bytes, options }: Sample): Promise<void> {
  const random = seededRandom(5);
  for (let round = 0; round < 50; round++) {
    const damaged = bytes.slice();
    // Heads and tails hold the structure, so most of the damage goes there.
    const reach = round % 2 === 0 ? bytes.length : Math.min(bytes.length, 1024);
    for (let flip = 0; flip <= round % 4; flip++) {
      const at = random.integer(reach);
      damaged[round % 3 === 2 ? bytes.length - 1 - at : at] = random.integer(256);
    }
    const table = await resultOrRefusal(importer, damaged, options);
    if (table !== null) for (const column of table.columns) expect(column.samples.length).toBe(table.timesS.length);
  }
}

async function textIsRefused(importer: Importer, { withText, options }: Sample): Promise<void> {
  if (withText !== null) await expect((async () => importer.read(withText, "logs/x", options))()).rejects.toThrow(InputError);
}

async function missingColumnIsRefused(importer: Importer, { bytes, options }: Sample): Promise<void> {
  await expect((async () => importer.read(bytes, "logs/x", { ...options, columns: ["no such column"] }))()).rejects.toThrow(/no such column/);
}

async function emptyIsRefused(importer: Importer, { options }: Sample): Promise<void> {
  await expect((async () => importer.read(new Uint8Array(0), "logs/x", options))()).rejects.toThrow(InputError);
}

async function plainData(importer: Importer, { bytes, options }: Sample): Promise<void> {
  const { columns, timesS, ...rest } = await importer.read(bytes, "logs/x", options);
  expect(JSON.parse(JSON.stringify(rest))).toEqual(rest);
  expect([timesS.length, columns.length]).not.toContain(0);
}

async function resultOrRefusal(importer: Importer, bytes: Uint8Array, options: ReadOptions): Promise<RawTable | null> {
  try {
    return await importer.read(bytes, "logs/x", options);
  } catch (error) {
    if (error instanceof InputError && error.issues.length > 0) return null;
    throw error;
  }
}
