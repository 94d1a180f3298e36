import { expect, test } from "vitest";
import { fittedShearCurve, weightedShearModulus } from "../../../src/processing/measures/shearModulus.ts";
import { agrees } from "../../helpers/agrees.ts";

const j = [2, 5, 10, 15, 20, 30, 40, 60];
const exact = j.map((mm) => ({ displacementM: mm / 1000, stressPa: 20e3 * (1 - Math.exp(-mm / 18)) }));
const rounded = j.map((mm, i) => ({ displacementM: mm / 1000, stressPa: 1000 * ([2.2, 4.6, 8.8, 11.1, 13.6, 16.0, 18.1, 19.2][i] as number) }));
const source = "weighted formula of Wong and Preston-Thomas, J. Terramechanics 19(4), 1983 (from memory), worked by an independent program";

test("exact points give K exactly, by the formula and by both fits", () => {
  agrees(weightedShearModulus(exact, 20e3), { expected: 0.018, relative: 1e-9, source });
  agrees(fittedShearCurve(exact, 20e3)?.shearModulusM ?? Number.NaN, { expected: 0.018, relative: 1e-9, source: "the curve the points were made from" });
  const both = fittedShearCurve(exact, null);
  agrees(both?.strengthPa ?? Number.NaN, { expected: 20e3, relative: 1e-8, source: "the curve the points were made from" });
  agrees(both?.shearModulusM ?? Number.NaN, { expected: 0.018, relative: 1e-8, source: "the curve the points were made from" });
});

test("rounded points", () => {
  agrees(weightedShearModulus(rounded, 20e3), { expected: 0.0180142, relative: 1e-4, source });
  agrees(fittedShearCurve(rounded, 20e3)?.shearModulusM ?? Number.NaN, { expected: 0.0179689, relative: 1e-4, source: "direct least squares by an independent program" });
});

test("points at or above the strength do not count in the formula", () => {
  expect(weightedShearModulus([...exact, { displacementM: 0.08, stressPa: 20.5e3 }, { displacementM: 0, stressPa: 0 }], 20e3)).toBeCloseTo(0.018, 12);
  expect(weightedShearModulus([{ displacementM: 0.01, stressPa: 30e3 }], 20e3)).toBeNaN();
  expect(() => weightedShearModulus(exact, 0)).toThrow(/above 0/);
});

test("a curve that bends upwards has no strength to fit, few points and no stress none either", () => {
  expect(fittedShearCurve(j.map((mm) => ({ displacementM: mm / 1000, stressPa: 10 * mm ** 2 })), null)).toBeNull();
  expect(fittedShearCurve(exact.slice(0, 3), null)).toBeNull();
  expect(fittedShearCurve(exact.map((point) => ({ ...point, stressPa: 0 })), null)).toBeNull();
});
