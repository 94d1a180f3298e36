import { expect, test } from "vitest";
import { contactPatch } from "../../../src/processing/measures/contactPatch.ts";

const mask = (lines: readonly string[]) => ({ rows: lines.length, columns: lines[0]?.length ?? 0, contact: Uint8Array.from(lines.join(""), (sign) => (sign === "#" ? 1 : 0)) });

test("cells, edge, extents and pieces of a hand-drawn print", () => {
  expect(contactPatch(mask(["......", ".###..", ".###..", "......"]))).toEqual({ cells: 6, edgeSides: 10, acrossColumns: 3, acrossRows: 2, pieces: 1, specks: 0, touchesEdge: false });
  expect(contactPatch(mask(["#####", "#...#", "#####"]))).toMatchObject({ cells: 12, edgeSides: 16 + 8, pieces: 1, touchesEdge: true });
});

test("cells that touch by corners only are two pieces", () => {
  expect(contactPatch(mask(["#.", ".#"])).pieces).toBe(2);
});

test("a speck counts in the area and not in the extents", () => {
  const lines = Array.from({ length: 30 }, (_, row) => Array.from({ length: 40 }, (__, column) => ((row > 5 && row < 25 && column > 5 && column < 30) || (row === 2 && column === 38) ? "#" : ".")).join(""));
  expect(contactPatch(mask(lines))).toMatchObject({ cells: 19 * 24 + 1, acrossColumns: 24, acrossRows: 19, pieces: 2, specks: 1 });
});

test("nothing touches nothing", () => {
  expect(contactPatch(mask(["...", "..."]))).toEqual({ cells: 0, edgeSides: 0, acrossColumns: 0, acrossRows: 0, pieces: 0, specks: 0, touchesEdge: false });
});
