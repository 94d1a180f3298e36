import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import type { ReadOptions } from "../../src/importers/contract.ts";
import { delimitedText } from "../../src/importers/delimitedText.ts";
import { readLargeText } from "../../src/importers/largeText.ts";
import { delimitedSamples } from "./delimitedSamples.ts";
import { plain, utf8 } from "./sample.ts";

const folder = mkdtempSync(join(tmpdir(), "drawbar-large-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
let files = 0;

/** A table or the issues, as plain values. */
async function outcome(read: () => unknown): Promise<unknown> {
  try {
    const table = (await read()) as ReturnType<typeof delimitedText.read>;
    return { ...table, timesS: [...table.timesS], columns: table.columns.map((column) => ({ ...column, samples: [...column.samples] })) };
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
}

/** Reads the bytes whole, and in pieces of that many bytes. */
async function bothWays(bytes: Uint8Array, options: Partial<ReadOptions>, pieceBytes: number, lanes = 1): Promise<{ readonly whole: unknown; readonly pieces: unknown }> {
  const path = join(folder, `${files++}.txt`);
  writeFileSync(path, bytes);
  const all = { ...plain, ...options };
  const whole = (): unknown => delimitedText.read(bytes, "log", all);
  // null = the head alone says that it must be read whole
  return { whole: await outcome(whole), pieces: await outcome(async () => (await readLargeText(path, "log", all, { lanes, leastBytes: 0, pieceBytes })) ?? whole()) };
}

const rows = (count: number, row = (i: number): string => `${i / 10},${i % 7}.5\n`): string => Array.from({ length: count }, (_, i) => row(i)).join("");
const quotedNote = (i: number): string => `${i / 10},${i % 7}.5,${i % 3 === 0 ? '"first line\nsecond, longer line"' : "none"}\n`;
type Case = readonly [name: string, text: string, options?: Partial<ReadOptions>];
const cases: readonly Case[] = [
  ["LF", `t,F\n${rows(40)}`],
  ["CR LF, byte-order mark, preamble", `\ufeffRun: R07\r\n\r\nt,F\r\n${rows(40).replaceAll("\n", "\r\n")}`],
  ["CR alone", `t,F\n${rows(40)}`.replaceAll("\n", "\r")],
  ["blank lines within and behind", `t,F\n${rows(20)}\n\n\n${rows(20)}\n\n`],
  ["a log restarted", `t,F\n${rows(20)}t,F\n${rows(20, (i) => `${i + 30},1\n`)}t,F\n`],
  ["cells over line ends", `t,F,note\n${rows(30, quotedNote)}`],
  ["an open quotation mark", `t,F,note\n${rows(10, quotedNote)}9,1,"open\n${rows(20, (i) => `${i + 10},2,none\n`)}`],
  ["overload and missing marks", `t,F\n${rows(30, (i) => `${i},${i % 5 === 0 ? "OVR" : i % 7 === 0 ? "---" : i % 11 === 0 ? -9999 : 1.5}\n`)}`, { missing: ["---"], overload: ["OVR", "-9999"] }],
  ["a cut last line", `t,F\n${rows(20)}20.5,1.`],
  ["zero bytes behind the last row", `t,F\n${rows(20)}${"\0".repeat(500)}`],
  ["a heading and no row", "t,F\n"],
  ["one row", "t,F\n0,1\n"],
  ["rate, with a blank line", `F\n${rows(20, (i) => `${i}\n`)}\n${rows(20, (i) => `${i}\n`)}`, { clock: { kind: "rate", rateHz: 10 } }],
  ["broken rows", `t,F\n${rows(20)}1,2,3\n${rows(20, (i) => `${i + 20},${i === 4 ? "broken" : 1}\n`)}5\n`],
  ["many broken rows", `t,F\n${rows(4)}${rows(40, (i) => `${i},x\n`)}`],
  ["a unit that changes", `t [s],F [N]\n${rows(20)}t [s],F [kN]\n${rows(20)}`],
  ["a time that is missing", `t,F\n${rows(20)},2\n${rows(20, (i) => `${i + 20},1\n`)}`],
  ["rows far shorter than the first", `t,F\n${rows(2, (i) => `${i}.${"0".repeat(100)},1\n`)}${rows(3000, (i) => `${i + 2},1\n`)}`],
  ["stamps with date", `t,F\n${rows(40, (i) => `2026-10-01T23:59:${String(i + 10)}.250Z,${i}\n`)}`, { clock: { kind: "iso", column: "t" } }],
  ["stamps whose date stands in another column", `d,t,F\n${rows(40, (i) => `2026-10-0${i < 20 ? 1 : 2},${i < 20 ? "23:59" : "00:00"}:${String(20 + i)},${i}\n`)}`, { clock: { kind: "wall", column: "t", format: "HH:mm:ss", zone: "UTC", dateColumn: "d", dateFormat: "yyyy-MM-dd" } }],
  ["stamps without date, over midnight", `t,F\n${rows(40, (i) => `${i < 20 ? "23:59" : "00:00"}:${String(20 + i)},${i}\n`)}`, { clock: { kind: "wall", column: "t", format: "HH:mm:ss", zone: "UTC", startDate: "2026-10-01" } }],
];

describe("a log read in pieces gives what it gives whole: numbers, evidence, findings, refusals", () => {
  const expectSame = async (bytes: Uint8Array, options: Partial<ReadOptions> = {}): Promise<void> => {
    for (const pieceBytes of [1, 7, 16, 61, 200, 1000]) {
      const { whole, pieces } = await bothWays(bytes, options, pieceBytes);
      expect(pieces).toEqual(whole);
    }
  };

  for (const [name, text, options] of cases) it(name, () => expectSame(utf8(text), options));
  for (const { name, bytes, withText, options } of delimitedSamples) {
    it(name, () => expectSame(bytes, options));
    it(`${name}, broken`, () => expectSame(withText as Uint8Array, options));
  }

  it.each([
    ["Latin-1 told by a late byte", {}],
    ["UTF-8 declared, a late byte is not", { encoding: "utf-8" }],
    ["Latin-1 declared", { encoding: "latin1" }],
  ] as const)("%s", async (_, options) => {
    const long = Buffer.from(`t,F,note\n${rows(9000, (i) => `${i},1,ok\n`)}9000,1,\xb0\n9001,1,ok\n`, "latin1");
    const { whole, pieces } = await bothWays(long, options, 20_000);
    expect(pieces).toEqual(whole);
  });

  it("in any file of digits, delimiters, marks and line ends", async () => {
    const anything = fc.array(fc.constantFrom("1", "2.5", ",", ",", "\n", "\n", "\r\n", "\r", '"', '"a\nb"', " ", "x", "\0", "t,F\n", "0.5,1\n"), { maxLength: 40 });
    await fc.assert(
      fc.asyncProperty(anything, fc.integer({ min: 1, max: 40 }), async (parts, pieceBytes) => {
        const { whole, pieces } = await bothWays(utf8(`t,F\n0,1\n1,2\n${parts.join("")}`), {}, pieceBytes);
        expect(pieces).toEqual(whole);
      }),
      { numRuns: 400, seed: 20261126 },
    );
  });

  const inThreads = ["cells over line ends", "blank lines within and behind", "broken rows", "stamps whose date stands in another column", "zero bytes behind the last row", "overload and missing marks"];
  for (const [name, text, options = {}] of cases.filter(([one]) => inThreads.includes(one))) {
    it(`in two threads: ${name}`, async () => {
      const { whole, pieces } = await bothWays(utf8(text), options, 50, 2);
      expect(pieces).toEqual(whole);
    });
  }
});

describe("what is not read in pieces", () => {
  it("is a small file, and one that must be seen whole to be known", async () => {
    const path = join(folder, "small.txt");
    writeFileSync(path, `t,F\n${rows(40)}`);
    expect(await readLargeText(path, "log", plain)).toBeNull();
    writeFileSync(path, Buffer.from(`\ufefft,F\n${rows(40)}`, "utf16le"));
    expect(await readLargeText(path, "log", plain, { lanes: 1, leastBytes: 0, pieceBytes: 100 })).toBeNull();
  });

  it("is a line that does not end within reason", async () => {
    const path = join(folder, "endless.txt");
    writeFileSync(path, `t,F\n${rows(40)}9,${"1".repeat(2 ** 20)}\n`);
    await expect(readLargeText(path, "log", plain, { lanes: 1, leastBytes: 0, pieceBytes: 100 })).rejects.toThrow("expected lines of less than");
  });
});
