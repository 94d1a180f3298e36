import { expect, it } from "vitest";
import { pairedTest, welchTest } from "../../src/numerics/tTests.ts";
import { agrees } from "../helpers/agrees.ts";

// Additional hours of sleep under two drugs, ten people
const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0];
const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
const source = "Student, Biometrika 6 (1908) 1; results as R's t.test prints them (from memory)";

it("two samples of differing variance", () => {
  const { t, degreesOfFreedom, probability } = welchTest(first, second);
  agrees(t, { expected: -1.8608, within: 5e-5, source });
  agrees(degreesOfFreedom, { expected: 17.776, within: 5e-4, source });
  agrees(probability, { expected: 0.07939, within: 5e-6, source });
});

it("pairs", () => {
  const { t, degreesOfFreedom, probability, difference } = pairedTest(first, second);
  agrees(t, { expected: -4.0621, within: 5e-5, source });
  agrees(probability, { expected: 0.002833, within: 5e-7, source });
  agrees(difference, { expected: -1.58, within: 1e-12, source });
  expect(degreesOfFreedom).toBe(9);
});

it("nothing scatters: no t; too few values are refused", () => {
  expect(welchTest([1, 1], [2, 2]).t).toBeNaN();
  expect(pairedTest([1, 2], [2, 3]).probability).toBeNaN();
  expect(() => welchTest([1], [1, 2])).toThrow(RangeError);
  expect(() => pairedTest([1, 2], [1, 2, 3])).toThrow(RangeError);
});
