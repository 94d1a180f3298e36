import { expect, test } from "vitest";
import { bekkerAsReece, bekkerPressure, reecePressure, referencePressure } from "../../src/models/pressureSinkage.ts";
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

test("very firm sand and lunar soil", () => {
  const firm = { exponent: 0.79, cohesive: 102e3, frictional: 5301e3 };
  const wong = "J. Y. Wong, Theory of Ground Vehicles, terrain-value table (firm sand), constants from memory; Bekker's form";
  agrees(bekkerPressure(0.02, 0.05, firm), { expected: 333863, relative: 1e-5, source: wong });
  agrees(bekkerPressure(0.05, 0.1, firm), { expected: 592887, relative: 1e-5, source: wong });
  const lunar = "W. D. Carrier et al., Lunar Sourcebook ch. 9, 1991, constants in third-party copies; Bekker's form by hand";
  agrees(bekkerPressure(0.05, 0.1, { exponent: 1, cohesive: 1400, frictional: 820e3 }), { expected: 41700, relative: 1e-12, source: lunar });
});

test("Reece's form, equal at one width, apart at another unless n is 1", () => {
  const source = "algebra of the two forms, worked by an independent program";
  const lunar = { exponent: 1, cohesive: 1400, frictional: 820e3 };
  agrees(reecePressure(0.03, 0.1, bekkerAsReece(lunar, 0.1)), { expected: 25020, relative: 1e-9, source });
  const sand = { exponent: 1.1, cohesive: 990, frictional: 1528430 };
  const reece = bekkerAsReece(sand, 0.1);
  agrees(reece.cohesivePa, { expected: 786.38, within: 6e-3, source });
  agrees(reece.frictionalPaPerM, { expected: 1214075, relative: 1e-6, source });
  agrees(reecePressure(0.03, 0.1, reece), { expected: 32499.96, within: 6e-3, source });
  expect(reecePressure(0.03, 0.2, bekkerAsReece(lunar, 0.1))).toBeCloseTo(bekkerPressure(0.03, 0.2, lunar), 6);
  expect(Math.abs(reecePressure(0.03, 0.2, reece) / bekkerPressure(0.03, 0.2, sand) - 1)).toBeGreaterThan(0.05);
  expect(() => reecePressure(-1, 1, reece)).toThrow(/sinkage/);
  expect(() => reecePressure(1, 0, reece)).toThrow(/width/);
  expect(() => bekkerAsReece(sand, 0)).toThrow(/width/);
});
