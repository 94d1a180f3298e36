import { describe, expect, test } from "vitest";
import { shapeOf, soilParameters, toWheelSoil } from "../../src/fitting/wheelSoilParameters.ts";
import { bekkerPressure } from "../../src/models/pressureSinkage.ts";
import { agrees } from "../helpers/agrees.ts";

const fitted = [Math.log(8.214), 1, 0.0171, 0.17, 35, Math.log(17.8), 0.4, 0.15, 0, 0, 0.5, 0.3];

describe("from the fitted scale to the soil", () => {
  test("lunar soil at two widths is Bekker's", () => {
    // k_c 1.4 kN/m², k_φ 820 kN/m³: at b₀ = 0.1 m χ = 1.4/(0.1·820) and p(10 mm) = 8.34 kPa
    const values = fitted.map((value, i) => (i === 0 ? Math.log(8.34) : i === 2 ? 1.4 / 82 : value));
    const soil = { exponent: 1, cohesive: 1400, frictional: 820e3 };
    for (const width of [0.05, 0.1, 0.23]) {
      agrees(toWheelSoil(values, width, 0.1).stiffness * 0.03, { expected: bekkerPressure(0.03, width, soil), relative: 1e-9, source: "W. D. Carrier et al. 1991, constants in third-party copies; Bekker's form" });
    }
  });

  test("each in its unit", () => {
    const soil = toWheelSoil(fitted, 0.1, 0.1);
    expect(soil.cohesionPa).toBeCloseTo(170, 9);
    expect(soil.frictionAngleRad).toBeCloseTo((35 * Math.PI) / 180, 12);
    expect(soil.shearModulusM).toBeCloseTo(0.0178, 12);
    expect(shapeOf(fitted)).toEqual({ lugShare: 0.5, flattening: 0.09 });
    soilParameters.forEach(({ name, toUnit }, i) => {
      if (name === "pressureAt10mm") expect(toUnit(fitted[i] as number)).toBeCloseTo(8214, 6);
      if (name === "shearModulus") expect(toUnit(fitted[i] as number)).toBeCloseTo(0.0178, 12);
    });
  });
});

test("published soils lie within the bounds, those of rover ground within two standard deviations of the belief", () => {
  const published: readonly (readonly [name: string, fitted: readonly number[], source: string])[] = [
    ["shearModulus", [6, 10, 25].map(Math.log), "J. Y. Wong, Theory of Ground Vehicles: compacted clay 6 mm, firm sandy ground 10 mm, loose sand 25 mm (from memory)"],
    ["shearModulus", [10, 17.8, 26].map(Math.log), "lunar soil, 1.8 ± 0.8 cm: J. K. Mitchell et al. 1974, third-party copy"],
    ["stressAngle", [0.43, 0.18], "J. Y. Wong and A. R. Reece 1967: compact and loose sand (second from memory)"],
    ["stressAngleBySlip", [0.32, 0.32], "J. Y. Wong and A. R. Reece 1967: compact and loose sand (second from memory)"],
    ["cohesion", [0.17, 0.35, 0.52, 0.7, 0.9], "lunar soil: Mitchell et al. 1974; Scott et al., NASA SP-235; Nature Communications 15 (2024) 46233-8; Lunar Sourcebook ch. 9 (0 to 30 cm, from memory)"],
    ["frictionAngle", [21.5, 35, 39, 42, 46], "lunar soil: the same"],
    ["sinkageExponent", [1, 1.1, 0.79], "lunar soil; dry sand and firm sand of J. Y. Wong's terrain table (partly from memory)"],
  ];
  for (const [name, values, source] of published) {
    const { lower, upper, prior } = soilParameters.find((parameter) => parameter.name === name) as (typeof soilParameters)[number];
    for (const value of values) {
      expect(value, `${name}, ${source}`).toBeGreaterThan(lower);
      expect(value, `${name}, ${source}`).toBeLessThan(upper);
      expect(Math.abs(value - prior.mean), `${name}, ${source}`).toBeLessThanOrEqual(2 * prior.sd);
    }
  }
  // deeper ground is stronger than a wheel reaches: 30 to 60 cm 3.0 kPa (2.4 to 3.8) and 54°, Lunar Sourcebook ch. 9 (from memory); still within the bounds
  for (const [name, value] of [["cohesion", 3.8], ["frictionAngle", 54]] as const) expect(value).toBeLessThan(soilParameters.find((parameter) => parameter.name === name)?.upper ?? 0);
});

test("every belief lies within its bounds and says why", () => {
  for (const { prior, lower, upper } of soilParameters) {
    expect(prior.mean).toBeGreaterThanOrEqual(lower);
    expect(prior.mean).toBeLessThanOrEqual(upper);
    expect(prior.sd).toBeGreaterThan(0);
    expect(prior.reason.length).toBeGreaterThan(5);
  }
});
