import { describe, expect, test } from "vitest";
import type { Fit } from "../../src/core/fit.ts";
import type { Unit } from "../../src/core/units.ts";
import { estimateFrom } from "../../src/core/estimate.ts";
import { soilBeliefs } from "../../src/fitting/soilBeliefs.ts";
import { soilParameters } from "../../src/fitting/wheelSoilParameters.ts";
import { agrees } from "../helpers/agrees.ts";

const determinedFit = (values: readonly (readonly [number, number, Unit])[], verdict: Fit["verdict"] = "determined"): Fit => ({
  model: "made", formula: "", points: [], residuals: [], degreesOfFreedom: 5, verdict, sentence: "", findings: [],
  parameters: values.map(([value, u, unit], i) => ({ name: `p${i}`, symbol: `p${i}`, estimate: estimateFrom(value, unit, "made", [{ cause: `c${i}`, effect: u, sharedBy: null, degreesOfFreedom: Infinity }]) })),
  covariance: values.map(([, u], i) => values.map((_, j) => (i === j ? u * u : 0))),
});
const named = (fit: Fit, names: readonly string[]): Fit => ({ ...fit, parameters: fit.parameters.map((parameter, i) => ({ ...parameter, name: names[i] as string })) });
// n 1, k_c 1.4 kN/m², k_φ 820 kN/m³ with 5 % on k_φ; φ 35° ± 1°; K 18 mm
const soil = {
  pressureSinkage: determinedFit([[1, 0.02, "1"], [1400, 0, "N/m^(n+1)"], [820e3, 41e3, "N/m^(n+2)"]]),
  shearStrength: determinedFit([[170, 30, "Pa"], [(35 * Math.PI) / 180, Math.PI / 180, "rad"]]),
  shearCurves: [{ normalStressPa: 5000, runs: ["S"], fit: named(determinedFit([[4000, 100, "Pa"], [0.018, 0.001, "m"]]), ["shearStrength", "shearModulus"]) }],
};
const at = (beliefs: ReturnType<typeof soilBeliefs>, name: string) => beliefs[soilParameters.findIndex((parameter) => parameter.name === name)];

describe("plates and shear runs as belief, where their doubt under a wheel is declared", () => {
  const beliefs = soilBeliefs(soil, 0.1, { plate: 0.3, shearRad: (4 * Math.PI) / 180 });

  test("pressure at 10 mm at the wheels' width", () => {
    const pressure = at(beliefs, "pressureAt10mm");
    agrees(Math.exp(pressure?.mean ?? 0), { expected: 8.34, relative: 1e-9, source: "(1.4/0.1 + 820) kN/m³ × 10 mm, by hand" });
    // by n: ln 0.01 · 0.02; by k_φ: 0.05 · 820/834
    agrees(pressure?.sd ?? 0, { expected: Math.hypot(Math.log(0.01) * 0.02, (0.05 * 820) / 834, 0.3), relative: 1e-4, source: "propagation by hand" });
    expect(pressure?.reason).toBe("the plates, within a factor of 1.35 under a wheel");
  });

  test("n, friction angle, K", () => {
    agrees(at(beliefs, "sinkageExponent")?.sd ?? 0, { expected: Math.hypot(0.02, 0.1), relative: 1e-9, source: "by hand: two doubts in quadrature" });
    agrees(at(beliefs, "frictionAngle")?.mean ?? 0, { expected: 35, relative: 1e-9, source: "the shear runs' angle in degrees" });
    agrees(at(beliefs, "frictionAngle")?.sd ?? 0, { expected: Math.hypot(1, 4), relative: 1e-9, source: "by hand: two doubts in quadrature" });
    agrees(Math.exp(at(beliefs, "shearModulus")?.mean ?? 0), { expected: 18, relative: 1e-9, source: "the shear runs' K in mm" });
  });

  test("the others keep the published ranges", () => expect(at(beliefs, "cohesion")).toBe(soilParameters.find(({ name }) => name === "cohesion")?.prior));
});

test("without a declared doubt, without runs or without an answer the published ranges stand", () => {
  const published = soilParameters.map(({ prior }) => prior);
  expect(soilBeliefs(soil, 0.1, {})).toEqual(published);
  expect(soilBeliefs(null, 0.1, { plate: 0.3, shearRad: 0.1 })).toEqual(published);
  expect(soilBeliefs({ ...soil, pressureSinkage: determinedFit([[1, 0, "1"], [1, 0, "1"], [1, 0, "1"]], "undetermined"), shearStrength: null }, 0.1, { plate: 0.3, shearRad: 0.1 })).toEqual(published);
});
