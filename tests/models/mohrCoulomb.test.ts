import { expect, test } from "vitest";
import { shearStrength } from "../../src/models/mohrCoulomb.ts";

test("cohesion plus friction", () => {
  expect(shearStrength(0, 500, 0.6)).toBe(500);
  expect(shearStrength(10e3, -200, Math.PI / 4)).toBeCloseTo(9800, 8);
  expect(() => shearStrength(1, 1, Math.PI / 2)).toThrow(/90°/);
});
