import { existsSync, mkdtempSync, readFileSync, readdirSync, renameSync, rmSync, truncateSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, test } from "vitest";
import { keyOf } from "../../../src/cli/cache/keyOf.ts";
import { openStore } from "../../../src/cli/cache/store.ts";
import { trimStore } from "../../../src/cli/cache/trimStore.ts";

const root = mkdtempSync(join(tmpdir(), "drawbar-store-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));
let folder = "";
let notes: string[] = [];
beforeEach(() => {
  folder = join(mkdtempSync(join(root, "case-")), "cache");
  notes = [];
});
const open = (): ReturnType<typeof openStore> => openStore(folder, (note) => notes.push(note));
const [one, other] = [keyOf("one"), keyOf("other")] as const;
const payload = Uint8Array.from({ length: 1000 }, (_, place) => place % 251);
const entry = (key: string): string => join(folder, `run-${key}`);

describe("an entry", () => {
  test("comes back byte for byte, to whoever opens the folder", () => {
    open().keep("run", one, payload);
    expect(Buffer.from(open().find("run", one) as Uint8Array).equals(payload)).toBe(true);
    expect([open().find("run", other), open().find("table", one)]).toEqual([null, null]);
    expect(notes).toEqual([]);
    expect(readdirSync(folder)).toEqual([`run-${one}`]);
  });

  test("of no bytes is an entry", () => {
    open().keep("run", one, new Uint8Array(0));
    expect(open().find("run", one)?.length).toBe(0);
  });

  test("is replaced by a later one", () => {
    open().keep("run", one, payload);
    open().keep("run", one, Uint8Array.of(7));
    expect([...(open().find("run", one) as Uint8Array)]).toEqual([7]);
  });

  test.each([
    ["cut", (path: string) => truncateSync(path, 700)],
    ["cut within its head", (path: string) => truncateSync(path, 10)],
    ["emptied", (path: string) => truncateSync(path, 0)],
    ["changed in one bit", (path: string) => flip(path, 500, 1)],
    ["changed in its last bit", (path: string) => flip(path, readFileSync(path).length - 1, 128)],
    ["changed in its sum", (path: string) => flip(path, 40, 2)],
    ["changed in its title", (path: string) => flip(path, 2, 4)],
    ["lengthened", (path: string) => writeFileSync(path, "x", { flag: "a" })],
    ["another's text", (path: string) => writeFileSync(path, "something else altogether ".repeat(20))],
    ["another entry under this name", (path: string) => (open().keep("run", other, payload), renameSync(entry(other), path))],
  ])("%s is noticed, said, removed, and can be written anew", (_, spoil) => {
    open().keep("run", one, payload);
    spoil(entry(one));
    expect(open().find("run", one)).toBeNull();
    expect(notes).toEqual([expect.stringMatching(/^Cache entry .*run-[0-9a-f]{64} is damaged \(.+\)\. It is removed, and what it held is worked out again\.$/)]);
    expect(existsSync(entry(one))).toBe(false);
    open().keep("run", one, payload);
    expect(open().find("run", one)).toHaveLength(1000);
    expect(notes).toHaveLength(1);
  });
});

test("a place that is no folder costs time and a note, nothing else", () => {
  writeFileSync(folder, "a file");
  open().keep("run", one, payload);
  expect(open().find("run", one)).toBeNull();
  expect(notes).toEqual([expect.stringMatching(/cannot be written \((EEXIST|ENOTDIR)\)/), expect.stringContaining("cannot be read (ENOTDIR)")]);
  expect(readFileSync(folder, "utf8")).toBe("a file");
});

describe("the bound on size", () => {
  const aged = (key: string, hours: number): void => {
    open().keep("run", key, payload);
    utimesSync(entry(key), new Date(), new Date(Date.now() - hours * 3.6e6));
  };

  test("takes what was used longest ago; a use counts; other files stay", () => {
    const keys = ["a", "b", "c", "d"].map((name) => keyOf(name)) as [string, string, string, string];
    keys.forEach((key, place) => aged(key, 9 - place));
    writeFileSync(join(folder, "mine.txt"), "m".repeat(5000));
    open().find("run", keys[0]);
    const each = readFileSync(entry(keys[0])).length;
    trimStore(folder, 2 * each);
    expect(keys.map((key) => existsSync(entry(key)))).toEqual([true, false, false, true]);
    expect(existsSync(join(folder, "mine.txt"))).toBe(true);
  });

  test("leaves what is within it, and takes parts of the killed, not of the living", () => {
    open().keep("run", one, payload);
    const part = (name: string): string => join(folder, `run-${one}.${name}.part`);
    const [old, young] = [part("00000000-0000-4000-8000-000000000000"), part("00000000-0000-4000-8000-000000000001")];
    for (const path of [old, young]) writeFileSync(path, "half");
    utimesSync(old, new Date(), new Date(Date.now() - 2 * 3.6e6));
    trimStore(folder, 1e9);
    expect([entry(one), old, young].map(existsSync)).toEqual([true, false, true]);
  });

  test("of a folder that is not there is kept", () => expect(() => trimStore(folder, 0)).not.toThrow());
});

test("keys tell apart what JSON does not", () => {
  const values = [null, Number.NaN, Infinity, -Infinity, 0, -0, "NaN", [1, 2], [[1], 2], { a: 1 }, {}];
  expect(new Set(values.map((value) => keyOf(value))).size).toBe(values.length);
  expect(keyOf({ a: [1, Infinity] })).toBe(keyOf({ a: [1, Infinity] }));
});

function flip(path: string, place: number, bit: number): void {
  const bytes = readFileSync(path);
  bytes[place] = (bytes[place] as number) ^ bit;
  writeFileSync(path, bytes);
}
