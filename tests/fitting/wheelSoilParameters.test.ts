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

test("every belief lies within its bounds and says why", () => {
  for (const { prior, lower, upper } of soilParameters) {
    expect(prior.mean).toBeGreaterThanOrEqual(lower);
    expect(prior.mean).toBeLessThanOrEqual(upper);
    expect(prior.sd).toBeGreaterThan(0);
    expect(prior.reason.length).toBeGreaterThan(5);
  }
});
