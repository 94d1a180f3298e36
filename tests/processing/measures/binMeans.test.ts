import { expect, test } from "vitest";
import { binMeans } from "../../../src/processing/measures/binMeans.ts";

test("few points stay as they are", () => {
  expect(binMeans([3, 1, 2], [30, 10, 20], 3)).toEqual([{ x: 3, y: 30 }, { x: 1, y: 10 }, { x: 2, y: 20 }]);
});

test("many points become means of equal stretches of x, however dense they lie", () => {
  const x = [0, 0.1, 0.2, 0.3, 0.9, 5.5, 10];
  expect(binMeans(x, x.map((value) => 2 * value), 2)).toEqual([{ x: 0.3, y: 0.6 }, { x: 7.75, y: 15.5 }]);
});

test("an empty bin gives no point, and one abscissa gives one", () => {
  expect(binMeans([0, 0, 0, 10], [1, 2, 3, 4], 3)).toEqual([{ x: 0, y: 2 }, { x: 10, y: 4 }]);
  expect(binMeans([7, 7, 7], [1, 2, 3], 2)).toEqual([{ x: 7, y: 2 }]);
});
