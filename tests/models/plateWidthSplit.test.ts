import { expect, test } from "vitest";
import { plateWidthSplit } from "../../src/models/plateWidthSplit.ts";
import { agrees } from "../helpers/agrees.ts";

test("two plates, solved exactly", () => {
  const { cohesive, frictional } = plateWidthSplit([{ widthM: 0.05, stiffness: 7341 }, { widthM: 0.1, stiffness: 6321 }]);
  const source = "algebra of Bekker's form with k = 102/b + 5301 at b = 0.05 and 0.10";
  agrees(cohesive, { expected: 102, relative: 1e-9, source });
  agrees(frictional, { expected: 5301, relative: 1e-9, source });
});

test("three plates on one line give that line, and k_c may be negative", () => {
  const plates = [0.05, 0.075, 0.1].map((widthM) => ({ widthM, stiffness: -40 / widthM + 5000 }));
  expect(plateWidthSplit(plates).cohesive).toBeCloseTo(-40, 9);
  expect(plateWidthSplit(plates).frictional).toBeCloseTo(5000, 8);
});

test("one width cannot be split", () => {
  expect(() => plateWidthSplit([{ widthM: 0.05, stiffness: 1 }, { widthM: 0.05, stiffness: 2 }])).toThrow(/two different plate widths/);
  expect(() => plateWidthSplit([])).toThrow();
  expect(() => plateWidthSplit([{ widthM: 0, stiffness: 1 }, { widthM: 0.05, stiffness: 2 }])).toThrow(/above 0/);
});
