import { expect, test } from "vitest";
import { bekkerPressure } from "../../src/models/pressureSinkage.ts";
import { reloadPressure, sinkageLeft } from "../../src/models/unloadReload.ts";
import { agrees } from "../helpers/agrees.ts";

const sand = { stiffnessAtSurface: 0, stiffnessByDepth: 503000e3 };
const source = "firm sand of J. Y. Wong's terrain table with A_u = 503 MN/m⁴ (both from memory), b = 0.1 m, turned at 50 mm, worked by an independent program";

test("firm sand, unloaded from 50 mm", () => {
  const turned = bekkerPressure(0.05, 0.1, { exponent: 0.79, cohesive: 102e3, frictional: 5301e3 });
  agrees(turned, { expected: 592887, relative: 1e-5, source });
  agrees(reloadPressure(0.045, 0.05, turned, sand), { expected: 467137, relative: 1e-5, source });
  agrees(sinkageLeft(0.05, turned, sand), { expected: 0.026426, within: 6e-7, source });
});

test("no pull: below the sinkage that is left the pressure is zero", () => {
  expect(reloadPressure(0.01, 0.05, 592887, sand)).toBe(0);
  expect(reloadPressure(0.05, 0.05, 592887, sand)).toBe(592887);
});

test("wrong calls", () => {
  expect(() => reloadPressure(0.06, 0.05, 1, sand)).toThrow(/unloading began/);
  expect(() => reloadPressure(0, 0, 1, sand)).toThrow(/above 0 m/);
  expect(() => sinkageLeft(0.05, 1, { stiffnessAtSurface: 0, stiffnessByDepth: 0 })).toThrow(/no stiffness/);
});
