import { expect, test } from "vitest";
import { recomputedRows } from "../../../src/processing/measures/recomputedRows.ts";

test("each result gets the change that each cause brings", () => {
  const cause = { cause: "scale", sharedBy: "calibration A", degreesOfFreedom: Infinity, move: (data: number, times: number) => data * (1 + 0.01 * times) };
  const [product, inverse] = recomputedRows(200, [cause], (data) => [3 * data, 1 / data]);
  expect(product?.[0]?.effect).toBeCloseTo(6, 9);
  expect(inverse?.[0]?.effect).toBeCloseTo(1 / 202 - 1 / 200, 9);
  expect(product?.[0]?.sharedBy).toBe("calibration A");
});

test("where the move upwards has no answer the move downwards is used; where none has, the row is NaN", () => {
  const cause = { cause: "scale", sharedBy: null, degreesOfFreedom: 3, move: (data: number, times: number) => data + times };
  const rows = recomputedRows(10, [cause], (data) => [data > 10 ? Number.NaN : 2 * data, data === 10 ? 1 : Number.NaN]);
  expect(rows[0]?.[0]?.effect).toBeCloseTo(2, 12);
  expect(rows[1]?.[0]?.effect).toBeNaN();
});
