import { expect, test } from "vitest";
import { deflectionAt, loadAt, requireRising } from "../../src/models/plateCurve.ts";

const curve = { deflectionM: [0.001, 0.003, 0.004], loadN: [10, 50, 90] };

test("straight lines between the points, from nothing to the first", () => {
  expect(loadAt(curve, 0.0005)).toBeCloseTo(5, 12);
  expect(loadAt(curve, 0.002)).toBeCloseTo(30, 12);
  expect(loadAt(curve, 0.004)).toBeCloseTo(90, 12);
  expect(loadAt(curve, 0.005)).toBeCloseTo(130, 12);
});

test("there and back", () => {
  for (const load of [0, 3, 10, 42, 90]) expect(loadAt(curve, deflectionAt(curve, load) ?? Number.NaN)).toBeCloseTo(load, 12);
  expect(deflectionAt(curve, 90.1)).toBeNull();
});

test("curves that do not rise are refused", () => {
  for (const wrong of [{ deflectionM: [], loadN: [] }, { deflectionM: [1, 2], loadN: [1] }, { deflectionM: [1, 2], loadN: [2, 1] }, { deflectionM: [0, 1], loadN: [1, 2] }]) expect(() => requireRising(wrong)).toThrow(/rising/);
});
