import { expect, it } from "vitest";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { studentizedRangeCdf, studentizedRangeQuantile } from "../../src/numerics/studentizedRange.ts";
import { agrees } from "../helpers/agrees.ts";
import { scipyNumbers, scipySource } from "./scipyReference.ts";

it("the handbook's quantiles", () => {
  agrees(studentizedRangeQuantile(0.95, 5, 10), { expected: 4.65, within: 0.005, source: "NIST/SEMATECH e-Handbook, 7.4.7.1" });
  agrees(studentizedRangeQuantile(0.95, 4, 16), { expected: 4.05, within: 0.005, source: "NIST/SEMATECH e-Handbook, 7.4.7.1" });
});

it("of two groups it is √2 times Student's t", () => {
  const source = "range of two deviates = |difference|, of standard deviation √2";
  for (const dof of [2, 7.5, 40]) agrees(studentizedRangeQuantile(0.95, 2, dof), { expected: Math.SQRT2 * studentTQuantile(0.975, dof), relative: 1e-7, source });
});

it("probabilities against a library", () => {
  const cases = [[3.5, 3, 12], [1, 4, 2], [6, 10, 5], [4, 5, 120], [20, 3, 1]] as const;
  const expected = scipyNumbers(cases.map((one) => ["studentized_range.cdf", [...one]]));
  cases.forEach(([q, k, dof], i) => agrees(studentizedRangeCdf(q, k, dof), { expected: expected[i] as number, within: 1e-7, source: scipySource }));
});

it("with the standard deviation known", () => {
  agrees(studentizedRangeQuantile(0.95, 3, Infinity), { expected: 3.31, within: 0.005, source: "Pearson & Hartley, Biometrika Tables for Statisticians I, table 29 (from memory)" });
});

it("ends and refusals", () => {
  expect(studentizedRangeCdf(0, 3, 5)).toBe(0);
  expect(() => studentizedRangeCdf(-1, 3, 5)).toThrow(RangeError);
  expect(() => studentizedRangeCdf(1, 1, 5)).toThrow(RangeError);
  expect(() => studentizedRangeCdf(1, 3, 0)).toThrow(RangeError);
  expect(() => studentizedRangeQuantile(1, 3, 5)).toThrow(RangeError);
});
