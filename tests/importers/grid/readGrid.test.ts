import { encode } from "fast-png";
import { encode as encodeJpeg } from "jpeg-js";
import { expect, test } from "vitest";
import { InputError } from "../../../src/core/errors.ts";
import { readGrid } from "../../../src/importers/grid/readGrid.ts";
import type { ReadOptions } from "../../../src/importers/contract.ts";

const options = (rest: Partial<ReadOptions>): ReadOptions => ({ clock: { kind: "rate", rateHz: 1 }, columns: [], missing: [], overload: [], ...rest });
const text = (content: string): Uint8Array => new TextEncoder().encode(content);
const codes = (read: () => unknown): string[] => {
  try {
    read();
    return [];
  } catch (error) {
    return error instanceof InputError ? error.issues.map((issue) => issue.code) : [String(error)];
  }
};

test("a matrix is read as declared, dead cells as missing", () => {
  const table = readGrid(text("0,5;1;2\r\n3;--;5\r\n6;7;8e1\r\n"), "pad.csv", options({ grid: "text", delimiter: ";", decimal: ",", missing: ["--"] }));
  expect(table.columns.map((column) => [column.name, ...column.samples])).toEqual([["#1", 0.5, 3, 6], ["#2", 1, Number.NaN, 7], ["#3", 2, 5, 80]]);
  expect(table.source).toMatchObject({ rowsRead: 3, format: 'matrix of 3 × 3 numbers; delimiter ";"; decimal ","' });
});

test("headings, uneven rows, another decimal mark or delimiter are refused with their place", () => {
  const pad = options({ grid: "text", delimiter: ";", decimal: "," });
  expect(codes(() => readGrid(text("a;b;c\n1;2;3\n4;5;6\n"), "p", pad))).toEqual(["bad-number", "bad-number", "bad-number"]);
  expect(codes(() => readGrid(text("1;2;3\n1;2\n4;5;6\n"), "p", pad))).toEqual(["uneven-rows"]);
  expect(codes(() => readGrid(text("1.5;2;3\n1;2;3\n4;5;6\n"), "p", pad))).toEqual(["bad-number"]);
  expect(codes(() => readGrid(text("1\t2\t3\n1\t2\t3\n"), "p", pad))).toContain("no-grid");
});

const grey = (rows: number, columns: number, of: (row: number, column: number) => number): Uint8Array => Uint8Array.from({ length: rows * columns }, (_, i) => of(Math.floor(i / columns), i % columns));

test("PNG of eight and sixteen bits, grey and coloured, gives brightness from 0 to 255", () => {
  const image = options({ grid: "image" });
  const plain = readGrid(encode({ width: 4, height: 3, channels: 1, depth: 8, data: grey(3, 4, (row, column) => 10 * row + column) }), "a.png", image);
  expect(Array.from(plain.columns[2]?.samples ?? [])).toEqual([2, 12, 22]);
  const deep = readGrid(encode({ width: 4, height: 3, channels: 1, depth: 16, data: Uint16Array.from({ length: 12 }, () => 65535) }), "b.png", image);
  expect(deep.columns[0]?.samples[0]).toBeCloseTo(255, 9);
  const red = readGrid(encode({ width: 3, height: 3, channels: 3, depth: 8, data: Uint8Array.from({ length: 27 }, (_, i) => (i % 3 === 0 ? 200 : 0)) }), "c.png", image);
  expect(red.columns[0]?.samples[0]).toBeCloseTo(0.2126 * 200, 9);
});

test("JPEG gives brightness to a few levels", () => {
  const rgba = Uint8Array.from({ length: 16 * 16 * 4 }, (_, i) => (i % 4 === 3 ? 255 : Math.floor(i / 4) % 16 < 8 ? 40 : 200));
  const table = readGrid(encodeJpeg({ width: 16, height: 16, data: rgba }, 95).data, "a.jpg", options({ grid: "image" }));
  expect(Math.abs((table.columns[2]?.samples[5] ?? 0) - 40)).toBeLessThan(4);
  expect(Math.abs((table.columns[13]?.samples[5] ?? 0) - 200)).toBeLessThan(4);
});

test("what is no image, see-through, cut off or too large is refused", () => {
  const image = options({ grid: "image" });
  expect(codes(() => readGrid(text("hello"), "a", image))).toEqual(["not-an-image"]);
  expect(codes(() => readGrid(encode({ width: 1, height: 1, channels: 4, depth: 8, data: Uint8Array.of(1, 2, 3, 100) }), "a", image))).toEqual(["see-through"]);
  const whole = encode({ width: 40, height: 40, channels: 1, depth: 8, data: grey(40, 40, (row, column) => (row * 7 + column * 13) % 256) });
  expect(codes(() => readGrid(whole.slice(0, 80), "a", image))).toEqual(["broken-image"]);
  const huge = Uint8Array.from(whole);
  new DataView(huge.buffer).setUint32(16, 100_000);
  new DataView(huge.buffer).setUint32(20, 100_000);
  expect(codes(() => readGrid(huge, "a", image))).toEqual(["image-too-large"]);
});
