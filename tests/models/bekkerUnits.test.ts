import { expect, test } from "vitest";
import { bekkerToSi } from "../../src/models/bekkerUnits.ts";
import { agrees } from "../helpers/agrees.ts";

// n; k_c lb/in^(n+1), k_φ lb/in^(n+2); exact conversion kN; as printed in the table, kN
const rows = [
  ["dry sand", 1.1, 0.1, 3.9, 0.9955, 1528.504, 0.99, 1528.43],
  ["sandy loam 15 %", 0.7, 2.3, 16.8, 5.2686, 1515.112, 5.27, 1515.04],
  ["sandy loam 22 %", 0.2, 7, 3, 2.5555, 43.119, 2.56, 43.12],
  ["clayey soil, Thailand 38 %", 0.5, 12, 16, 13.1861, 692.185, 13.19, 692.15],
  ["heavy clay 25 %", 0.13, 45, 140, 12.7039, 1556.032, 12.7, 1555.95],
  ["lean clay 22 %", 0.2, 45, 120, 16.4285, 1724.779, 16.43, 1724.69],
  ["snow", 1.6, 0.07, 0.08, 4.3724, 196.732, 4.37, 196.72],
] as const;

test.each(rows)("%s: imperial to SI with the power of metre", (_name, exponent, cohesive, frictional, exactC, exactPhi, printedC, printedPhi) => {
  const si = bekkerToSi({ exponent, cohesive, frictional }, "lbf", "in");
  const exact = "exact conversion, 1 lbf = 4.4482216 N and 1 in = 0.0254 m, worked by an independent program";
  agrees(si.cohesive / 1000, { expected: exactC, within: 5e-5, source: exact });
  agrees(si.frictional / 1000, { expected: exactPhi, within: 5e-4, source: exact });
  const printed = "J. Y. Wong, Theory of Ground Vehicles, terrain-value table in both systems, from memory";
  agrees(si.cohesive / 1000, { expected: printedC, relative: 6e-3, source: printed });
  agrees(si.frictional / 1000, { expected: printedPhi, relative: 1e-4, source: printed });
});

test("N and mm: k_φ scales with 1000^(n+2) of length", () => {
  const si = bekkerToSi({ exponent: 1, cohesive: 0.0014, frictional: 0.00082 }, "N", "mm");
  expect(si.cohesive).toBeCloseTo(1400, 6);
  expect(si.frictional).toBeCloseTo(820e3, 4);
});

test("a pressure is no force", () => {
  expect(() => bekkerToSi({ exponent: 1, cohesive: 1, frictional: 1 }, "kPa", "m")).toThrow(/force and a length/);
});
