import { expect, test } from "vitest";
import { rateFactor, saturatingPressure } from "../../src/models/saturatingPressure.ts";
import { curveFit } from "../../src/numerics/curveFit.ts";
import { agrees } from "../helpers/agrees.ts";

test("by hand", () => {
  const soil = { plateauPa: 2e5, buildUpM: 0.005, rise: 5e6 };
  expect(saturatingPressure(0, soil)).toBe(0);
  agrees(saturatingPressure(0.005, soil), { expected: 2e5 * (1 - 1 / Math.E) + 25e3, relative: 1e-12, source: "the formula at z = z_s, by hand" });
  agrees(rateFactor(0.1, 0.001, 0.05), { expected: 100 ** 0.05, relative: 1e-12, source: "the power law worked by hand" });
});

test("a dense sand with a knee: less than half the scatter of a power law", () => {
  // R. Kruger, P. S. Els and H. A. Hamersma, J. Terramechanics 109 (2023) 45–62, open data (CC BY 4.0): plate of 0.018 m² in sand prepared by method 4, means rounded to 0.1 kPa.
  const z = [2, 5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 79].map((mm) => mm / 1000);
  const p = [87.1, 151.9, 198.5, 234.2, 267.7, 297.2, 331.3, 390.7, 435.1, 482.6, 541.9, 596.9].map((kPa) => 1000 * kPa);
  const power = curveFit({ model: (x, [k = 0, n = 0]) => k * (x / 0.03) ** n, x: z, y: p, start: [3e5, 0.5] });
  const knee = curveFit({ model: (x, [plateauPa = 0, buildUpM = 0, rise = 0]) => saturatingPressure(x, { plateauPa, buildUpM, rise }), x: z, y: p, start: [1.5e5, 0.004, 5e6], lower: [0, 1e-4, 0] });
  expect(knee.converged).toBe(true);
  expect(Math.sqrt(knee.sumOfSquares / 9)).toBeLessThan(Math.sqrt(power.sumOfSquares / 10) / 2);
});

test("wrong calls", () => {
  expect(() => saturatingPressure(-1, { plateauPa: 1, buildUpM: 1, rise: 0 })).toThrow(/sinkage/);
  expect(() => saturatingPressure(1, { plateauPa: 1, buildUpM: 0, rise: 0 })).toThrow(/build-up/);
  expect(() => rateFactor(0, 1, 1)).toThrow(/speeds/);
});
