import { expect, test } from "vitest";
import { lunarDensity, lunarGravity, lunarMeanDensity, lunarTrafficability } from "../../src/models/lunarSoil.ts";
import { agrees } from "../helpers/agrees.ts";

test("gravity", () => {
  agrees(lunarGravity, { expected: 4902.80007e9 / 1738.0e3 ** 2, within: 5e-3, source: "GM and radius of the Moon as published by the JPL ephemeris service, public copy" });
});

test("the constants agree with other printings, unit by unit", () => {
  agrees(lunarTrafficability.soil.cohesive, { expected: 0.14 * 1e4, relative: 1e-12, source: "0.14 N/cm² as printed by J. K. Mitchell et al. 1974, third-party copy" });
  agrees(lunarTrafficability.soil.frictional, { expected: 0.82 * 1e6, relative: 1e-12, source: "0.82 N/cm³ as printed by J. K. Mitchell et al. 1974, third-party copy" });
  agrees(lunarTrafficability.soil.frictional, { expected: 820e3, relative: 1e-12, source: "Nature Communications 15 (2024) 46233-8, figure 4: N = 1.0, K_s = 820 kPa m⁻¹ (seen)" });
  agrees(lunarTrafficability.cohesionPa, { expected: 0.017 * 1e4, relative: 1e-12, source: "0.017 N/cm², third-party copy" });
  agrees(lunarTrafficability.shearModulusM, { expected: 0.018, within: 0.008, source: "K = 1.8 ± 0.8 cm, from memory" });
});

test("density over depth", () => {
  const formula = "W. D. Carrier et al. 1991, 1.92 (z + 12.2)/(z + 18) with z in cm, third-party copy, worked by hand";
  for (const [cm, density] of [[0, 1.3013], [5, 1.4358], [15, 1.5825], [30, 1.688], [60, 1.7772], [100, 1.8256]] as const) agrees(lunarDensity(cm / 100), { expected: 1000 * density, within: 0.06, source: formula });
  for (const [cm, density] of [[15, 1.47], [30, 1.5559], [60, 1.6478]] as const) agrees(lunarMeanDensity(cm / 100), { expected: 1000 * density, within: 0.06, source: `mean of: ${formula}` });
  for (const [cm, density] of [[15, 1500], [30, 1580], [60, 1660]] as const) agrees(lunarMeanDensity(cm / 100), { expected: density, within: 50, source: "published means ± 50 kg/m³, Lunar Sourcebook ch. 9, from memory" });
});

test("centimetres instead of metres would be seen", () => expect(lunarDensity(15)).toBeGreaterThan(1900));

test("wrong calls", () => {
  expect(() => lunarDensity(-1)).toThrow(/depth/);
  expect(() => lunarMeanDensity(0)).toThrow(/depth/);
});
