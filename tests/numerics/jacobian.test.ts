import { expect, test } from "vitest";
import { centralJacobian } from "../../src/numerics/jacobian.ts";
import { agrees } from "../helpers/agrees.ts";

const at = (row: readonly number[], i: number): number => row[i] as number;
const none = [-Infinity];
const slope = (model: (value: number, p: readonly number[]) => number, p: number, lower = none, upper = [Infinity]): number => {
  const matrix = new Float64Array(1);
  centralJacobian(model, [2], [p], [1], lower, upper, matrix);
  return matrix[0] as number;
};

test("central, one-sided at a bound and beside a hole, NaN between holes", () => {
  agrees(slope((value, p) => Math.exp(value * at(p, 0)), 0.6), { expected: 2 * Math.exp(1.2), relative: 1e-9, source: "derivative by hand" });
  agrees(slope((_, p) => at(p, 0) ** 2, 3, [3]), { expected: 6, relative: 1e-4, source: "derivative by hand" });
  agrees(slope((_, p) => Math.sqrt(at(p, 0) - 3) + at(p, 0), 3, none), { expected: Math.sqrt(1 / (3 * Math.cbrt(2 ** -52))) + 1, relative: 1e-6, source: "forward difference of √ by hand" });
  agrees(slope((_, p) => (at(p, 0) > 3 ? Number.NaN : 7 * at(p, 0)), 3), { expected: 7, relative: 1e-9, source: "derivative by hand" });
  agrees(slope((_, p) => (at(p, 0) < 3 ? Number.NaN : 7 * at(p, 0)), 3, none, [3 + 1e-7]), { expected: 7, relative: 1e-7, source: "derivative by hand; a step of 1e-7 leaves 8 digits" });
  expect(slope((_, p) => (at(p, 0) === 3 ? 1 : Number.NaN), 3)).toBeNaN();
});
