import { describe, expect, test } from "vitest";
import { endsWhole } from "../../../src/cli/watch/lastLine.ts";
import { fileStage, lookAgain, settleRule } from "../../../src/cli/watch/settle.ts";
import type { FileWatch } from "../../../src/cli/watch/settle.ts";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const utf16 = (text: string, high: "last" | "first"): Uint8Array => Uint8Array.from([...text].flatMap((letter) => (high === "last" ? [letter.charCodeAt(0), 0] : [0, letter.charCodeAt(0)])));
const whole = () => true;
const cut = () => false;

/** Looks at a file at given moments; each look names its size. */
function looks(at: readonly (readonly [ms: number, size: number])[], ends: () => boolean | null = whole): FileWatch {
  let file: FileWatch | undefined;
  for (const [ms, size] of at) file = lookAgain(file, { size, changedMs: size }, ms, settleRule, ends);
  if (file === undefined) throw new Error("no look");
  return file;
}
const kind = (file: FileWatch | undefined, ms: number) => fileStage(file, ms, settleRule).kind;

describe("when a file is complete", () => {
  test("absent, empty, growing, complete", () => {
    expect(kind(undefined, 0)).toBe("absent");
    expect(kind(looks([[0, 0]]), 60_000)).toBe("empty");
    const file = looks([[0, 10]]);
    expect(kind(file, 1499)).toBe("growing");
    expect(fileStage(file, 1500, settleRule)).toEqual({ kind: "complete", sinceMs: 0, openEnd: false });
  });

  test("every change starts the wait anew, of the times as well as of the size", () => {
    const file = looks([[0, 10], [1400, 20]]);
    expect(kind(file, 2899)).toBe("growing");
    const touched = lookAgain(looks([[0, 10]]), { size: 10, changedMs: 99 }, 5000, settleRule, whole);
    expect(kind(touched, 6499)).toBe("growing");
    expect(kind(touched, 6500)).toBe("complete");
  });

  test("a look that finds it the same neither starts it anew nor opens it", () => {
    let opened = 0;
    const ends = () => ++opened > 0;
    expect(looks([[0, 10], [250, 10], [500, 10]], ends).sinceMs).toBe(0);
    expect(opened).toBe(1);
  });

  test("a logger that writes every 2 s is waited for two and a half times that", () => {
    const file = looks([[0, 10], [2000, 20], [4000, 30]]);
    expect(kind(file, 8999)).toBe("growing");
    expect(kind(file, 9000)).toBe("complete");
  });

  test("a pause asks for ten seconds at most, and a file written anew starts without one", () => {
    expect(kind(looks([[0, 10], [9000, 20]]), 18_999)).toBe("growing");
    expect(kind(looks([[0, 10], [9000, 20]]), 19_000)).toBe("complete");
    expect(kind(looks([[0, 10], [9000, 5]]), 10_500)).toBe("complete");
    expect(kind(looks([[0, 10], [60_000, 20]]), 61_500)).toBe("complete");
  });

  test("a pause inside a line asks for no longer wait", () => {
    const paused = looks([[0, 10], [4000, 20]], cut);
    expect(kind({ ...paused, whole: true }, 5499)).toBe("growing");
    expect(kind({ ...paused, whole: true }, 5500)).toBe("complete");
  });

  test("an open last line is waited for half a minute, then read as it is", () => {
    const file = looks([[0, 10]], cut);
    expect(fileStage(file, 29_999, settleRule)).toEqual({ kind: "open", readAtMs: 30_000 });
    expect(fileStage(file, 30_000, settleRule)).toEqual({ kind: "complete", sinceMs: 0, openEnd: true });
  });

  test("a file that cannot be opened is tried again, without starting anew", () => {
    const file = looks([[0, 10]], () => null);
    expect(kind(file, 2000)).toBe("open");
    expect(kind(lookAgain(file, { size: 10, changedMs: 10 }, 2000, settleRule, whole), 2000)).toBe("complete");
  });
});

describe("whether the last line is whole", () => {
  test.each([
    ["a line feed", bytes("a\n1\n"), true],
    ["a carriage return", bytes("a\r1\r"), true],
    ["a carriage return whose line feed has not come yet", bytes("a\r\n1\r"), false],
    ["nothing", bytes("a\n1"), false],
    ["zeros a logger reserved", Uint8Array.from([...bytes("a\n1\n".padStart(400, "x")), 0, 0]), false],
    ["a line feed in UTF-16, low byte first", utf16("ab\n1\n", "last"), true],
    ["a line feed in UTF-16, high byte first", utf16("ab\n1\n", "first"), true],
    ["nothing in UTF-16", utf16("ab\n1", "last"), false],
  ])("text that ends with %s", (_, file, expected) => {
    expect(endsWhole(file.subarray(0, 300), file.subarray(-4))).toBe(expected);
  });

  test("bytes that are no text have no lines", () => {
    expect(endsWhole(Uint8Array.from([80, 75, 3, 4, 0, 0, 0, 7, 9, 0, 1, 5]), bytes("x"))).toBe(true);
  });
});
