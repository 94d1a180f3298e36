import { expect, test } from "vitest";
import { stressUnderPlate } from "../../src/models/stressUnderPlate.ts";
import { agrees } from "../helpers/agrees.ts";

test("as deep as the circle's radius, textbook example", () => {
  agrees(stressUnderPlate(68.95e3, 0.2, 0.2, 4), { expected: 51.71e3, within: 10, source: "J. Y. Wong, Theory of Ground Vehicles, ch. 2, example of the stress under a circular contact (p 68.95 kPa, ν 4, r = z = 20 cm), from memory" });
});

test("elastic ground as Boussinesq has it, the pressure itself at the surface, the weight of a point far below", () => {
  agrees(stressUnderPlate(1, 0.1, 0.1, 3), { expected: 1 - (1 / (1 + 1)) ** 1.5, relative: 1e-12, source: "Boussinesq, under the middle of a circle: 1 − (1/(1 + (r/z)²))^(3/2)" });
  expect(stressUnderPlate(70e3, 0.1, 0, 5)).toBe(70e3);
  agrees(stressUnderPlate(1, 0.01, 2, 5) / ((5 * Math.PI * 0.01 ** 2) / (2 * Math.PI * 2 ** 2)), { expected: 1, within: 1e-4, source: "Fröhlich, under a point load: ν F/(2π z²)" });
});

test("wrong calls", () => {
  expect(() => stressUnderPlate(-1, 1, 1, 4)).toThrow(/pressure/);
  expect(() => stressUnderPlate(1, 0, 1, 4)).toThrow(/radius/);
  expect(() => stressUnderPlate(1, 1, 1, 0)).toThrow(/concentration/);
});
