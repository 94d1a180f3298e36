import { expect, test } from "vitest";
import { loadCycles } from "../../../src/processing/measures/loadCycles.ts";

const curveOf = (force: readonly number[]) => ({ force, displacement: force, timesS: force.map((_, index) => index) });

test("three triangles are three complete cycles", () => {
  const triangle = [0, 2, 4, 6, 8, 10, 8, 6, 4, 2];
  expect(loadCycles(curveOf([...triangle, ...triangle, ...triangle, 0]))).toEqual([
    { valley: 0, peak: 5, end: 10 },
    { valley: 10, peak: 15, end: 20 },
    { valley: 20, peak: 25, end: 30 },
  ]);
});

test("noise smaller than a fifth of the peak makes no cycle", () => {
  expect(loadCycles(curveOf([0, 3, 2, 6, 5, 10, 9, 9.5, 4, 0])).map((cycle) => cycle.peak)).toEqual([5]);
});

test("a log that ends at its peak, and one that never comes down far enough, have no complete cycle", () => {
  expect(loadCycles(curveOf([0, 5, 10]))).toEqual([{ valley: 0, peak: 2, end: null }]);
  expect(loadCycles(curveOf([0, 5, 10, 6]))).toEqual([{ valley: 0, peak: 2, end: null }]);
});

test("nothing loaded, nothing found", () => {
  expect(loadCycles(curveOf([0, 0, -1]))).toEqual([]);
});
