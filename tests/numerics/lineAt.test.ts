import { expect, test } from "vitest";
import { lineAt } from "../../src/numerics/lineAt.ts";
import { lineFit } from "../../src/numerics/lineFit.ts";
import { agrees } from "../helpers/agrees.ts";

// Thermometer calibration of JCGM 100:2008, H.3: corrections over temperature less 20 °C.
const temperatures = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
const corrections = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
const line = lineFit(temperatures.map((t) => t - 20), corrections);

test("the thermometer line read at 30 °C, beyond its data", () => {
  const at30 = lineAt(line, 10, line.residualSd);
  agrees(at30.value, { expected: -0.1494, within: 5e-5, source: "JCGM 100:2008, H.3.4" });
  agrees(at30.standardError, { expected: 0.0041, within: 5e-5, source: "JCGM 100:2008, H.3.4" });
  const source = "the same data, t(0.975; 9) times the standard error, worked with SciPy 1.10";
  agrees(at30.confidenceHalf, { expected: 0.0093622, within: 5e-8, source });
  agrees(at30.predictionHalf, { expected: 0.0122577, within: 5e-8, source });
});

test("a printed line read at one place", () => {
  const printed = { ...line, intercept: 7.749695, slope: 3.930123 };
  agrees(lineAt(printed, 47, 0).value, { expected: 192.4655, within: 6e-5, source: "NIST/SEMATECH e-Handbook, 4.1.3.2: P = 7.749695 + 3.930123 T at T = 47" });
});

test("narrowest in the middle, and an exact observation adds nothing", () => {
  const middle = temperatures.reduce((sum, t) => sum + t - 20, 0) / temperatures.length;
  const half = (x: number): number => lineAt(line, x, 0).confidenceHalf;
  expect(half(middle)).toBeLessThan(half(middle - 0.1));
  expect(half(middle)).toBeLessThan(half(middle + 0.1));
  expect(lineAt(line, 3, 0).predictionHalf).toBe(half(3));
});

test("two points have a line and no interval", () => {
  const two = lineAt(lineFit([0, 1], [1, 3]), 2, 0);
  expect(two.value).toBe(5);
  expect([two.standardError, two.confidenceHalf, two.predictionHalf]).toEqual([NaN, NaN, NaN]);
});

test("a confidence that is none", () => {
  expect(() => lineAt(line, 3, 0, 1)).toThrow(/between 0 and 1/);
});
