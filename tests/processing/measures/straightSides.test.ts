import { expect, test } from "vitest";
import { straightSides } from "../../../src/processing/measures/straightSides.ts";

const mask = (rows: number, columns: number, inside: (row: number, column: number) => boolean) => ({ rows, columns, contact: Uint8Array.from({ length: rows * columns }, (_, i) => (inside(Math.floor(i / columns), i % columns) ? 1 : 0)) });
const lengths = (rows: number, columns: number, inside: (row: number, column: number) => boolean): number[] => straightSides(mask(rows, columns, inside)).map((side) => side.length).sort((a, b) => a - b);

test("an upright rectangle has four straight sides, its own outermost places", () => {
  const sides = straightSides(mask(20, 30, (row, column) => row >= 3 && row < 12 && column >= 5 && column < 25));
  expect(sides.map((side) => side.length).sort((a, b) => a - b)).toEqual([9, 9, 20, 20]);
  expect(sides).toContainEqual(Array.from({ length: 20 }, (_, k) => 3 * 30 + 5 + k));
  expect(sides).toContainEqual(Array.from({ length: 9 }, (_, k) => (3 + k) * 30 + 24));
});

test("two bars have theirs each, a strip one place wide has two", () => {
  expect(lengths(20, 30, (row, column) => column >= 2 && column < 22 && ((row >= 2 && row < 5) || (row >= 10 && row < 13)))).toEqual([20, 20, 20, 20]);
  expect(lengths(9, 30, (row, column) => row === 4 && column >= 2 && column < 22)).toEqual([20, 20]);
});

test("a hole and a notch count by the places along them", () => {
  const plate = (row: number, column: number): boolean => row >= 2 && row < 18 && column >= 2 && column < 28;
  const holed = straightSides(mask(20, 30, (row, column) => plate(row, column) && !(row >= 6 && row < 14 && column >= 5 && column < 20)));
  expect(holed.map((side) => side.length).sort((a, b) => a - b)).toEqual([8, 8, 15, 15, 16, 16, 26, 26]);
  expect(holed).toContainEqual(Array.from({ length: 15 }, (_, k) => 5 * 30 + 5 + k));
  expect(lengths(20, 30, (row, column) => plate(row, column) && !(row < 9 && column >= 8 && column < 20))).toContain(12);
});

test("rounded ends and slanting sides are none, wherever they lie on the grid", () => {
  for (let phase = 0; phase < 25; phase++) {
    const [across, along] = [(phase % 5) / 5, Math.floor(phase / 5) / 5];
    for (const size of [4, 8, 30]) expect(lengths(70, 70, (row, column) => ((row - 35 + across) / size) ** 2 + ((column - 35 + along) / size) ** 2 < 1)).toEqual([]);
    // a square on its corner, and one turned by a fifth
    for (const turn of [Math.PI / 4, 0.2]) {
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      expect(lengths(70, 70, (row, column) => Math.max(Math.abs(c * (row - 35 + across) + s * (column - 35 + along)), Math.abs(c * (column - 35 + along) - s * (row - 35 + across))) < 20)).toEqual([]);
    }
  }
});

test("nothing has none", () => {
  expect(lengths(5, 5, () => false)).toEqual([]);
  expect(lengths(0, 0, () => true)).toEqual([]);
});
