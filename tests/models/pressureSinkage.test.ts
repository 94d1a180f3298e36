import { expect, test } from "vitest";
import { bekkerPressure, referencePressure } from "../../src/models/pressureSinkage.ts";
import { agrees } from "../helpers/agrees.ts";

test("dry sand under a 100 mm plate", () => {
  const sand = { exponent: 1.1, cohesive: 990, frictional: 1528430 };
  agrees(bekkerPressure(0.05, 0.1, sand), { expected: 57005, relative: 1e-4, source: "J. Y. Wong, Theory of Ground Vehicles, terrain-value table (dry sand), constants in a third-party copy; Bekker's form" });
});

test("the form with a reference pressure is the same curve", () => {
  const soil = { exponent: 0.79, cohesive: 102e3, frictional: 5301e3 };
  const at10mm = bekkerPressure(0.01, 0.05, soil);
  expect(referencePressure(0.01, at10mm, 0.01, 0.79)).toBe(at10mm);
  expect(referencePressure(0.043, at10mm, 0.01, 0.79)).toBeCloseTo(bekkerPressure(0.043, 0.05, soil), 4);
  expect(referencePressure(0, at10mm, 0.01, 0.79)).toBe(0);
});

test("a negative k_c is used as it is", () => {
  expect(bekkerPressure(0.05, 0.1, { exponent: 1, cohesive: -1000, frictional: 1e6 })).toBeCloseTo(49500, 6);
});

test("a sinkage below zero or no width is a wrong call", () => {
  const soil = { exponent: 1, cohesive: 0, frictional: 1 };
  expect(() => bekkerPressure(-0.01, 0.1, soil)).toThrow(/sinkage/);
  expect(() => bekkerPressure(0.01, 0, soil)).toThrow(/width/);
  expect(() => referencePressure(0.01, 1, 0, 1)).toThrow(/reference/);
  expect(() => referencePressure(Number.NaN, 1, 1, 1)).toThrow(/sinkage/);
});
