import { expect, test } from "vitest";
import { bekkerTowedWheel } from "../../src/models/bekkerWheel.ts";
import { bulldozingResistance } from "../../src/models/earthPressure.ts";
import { lunarDensity, lunarGravity, lunarMeanDensity, lunarTrafficability } from "../../src/models/lunarSoil.ts";
import { agrees } from "../helpers/agrees.ts";

test("gravity", () => {
  agrees(lunarGravity, { expected: 4902.80007e9 / 1738.0e3 ** 2, within: 5e-3, source: "GM and radius of the Moon as published by the JPL ephemeris service, public copy" });
});

test("weight of the rover of 1971 there", () => {
  const source = "210 kg empty and 490 kg of payload on four wheels (encyclopedia, third-party copy), by hand";
  agrees(210 * lunarGravity, { expected: 340.2, within: 1e-9, source });
  agrees(700 * lunarGravity, { expected: 1134, within: 1e-9, source });
  agrees((700 * lunarGravity) / 4, { expected: 283.5, within: 1e-9, source });
});

test("all resistances of that rover together, on the level and on a slope of 15°", () => {
  // four wheels of 0.813 by 0.229 m under 259 N each, two of them leading; 1004 N in all, rolling 5 % of it
  const towed = bekkerTowedWheel({ radiusM: 0.813 / 2, widthM: 0.229 }, lunarTrafficability.soil, 259);
  if ("reason" in towed) throw new Error(towed.reason);
  const pushed = bulldozingResistance({ cohesionPa: 170, frictionAngleRad: 0.576, unitWeight: 2472 }, 0.229, 0.813, towed.sinkageM, 33.27);
  const level = 4 * towed.resistanceN + 2 * pushed + 0.05 * 1004;
  const source = "planetary surface robotics lecture on terramechanics, values seen in a student's script: 352 N and 613 N; its bulldozing belongs to a sinkage 0.8 mm larger, hence 6 % of its 190 N";
  agrees(level, { expected: 352, within: 12, source });
  agrees(level + 1004 * Math.sin(Math.PI / 12), { expected: 613, within: 12, source });
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

test("density within what others measured, and near the other published profile", () => {
  for (const cm of [0, 1, 3, 5]) {
    expect(lunarDensity(cm / 100)).toBeGreaterThanOrEqual(1100); // L. D. Jaffe, Science 164 (1969) 1514 (abstract): 1.1 g/cm³ at the surface
    expect(lunarDensity(cm / 100)).toBeLessThanOrEqual(1600); // the same: 1.6 g/cm³ at 5 cm
  }
  const source = "ρ = 1.39 z^0.056 with z in cm, mean over the depth (Lunar Sourcebook ch. 9, coefficients from memory); both forms stay within ± 50 kg/m³ of the published means, so within 100 of each other";
  for (const [cm, density] of [[15, 1531.8], [30, 1592.5], [60, 1655.5]] as const) {
    agrees((1390 * cm ** 0.056) / 1.056, { expected: density, within: 0.06, source });
    agrees(lunarMeanDensity(cm / 100), { expected: density, within: 100, source });
  }
  const from30to60 = 2 * lunarMeanDensity(0.6) - lunarMeanDensity(0.3);
  agrees(from30to60, { expected: 1740, within: 50, source: "published mean of 30 to 60 cm, 1.74 ± 0.05 g/cm³, Lunar Sourcebook ch. 9, from memory" });
});

test("friction angle within the bands of other missions, cohesion below that of soil in place", () => {
  const angle = (lunarTrafficability.frictionAngleRad * 180) / Math.PI;
  // R. F. Scott et al., NASA SP-235: 35 to 39°; Surveyor, Science 158 (1967) 1174 (abstract): 35 to 37°
  for (const [low, high] of [[35, 39], [35, 37]] as const) {
    expect(angle).toBeGreaterThanOrEqual(low - 1e-9);
    expect(angle).toBeLessThanOrEqual(high);
  }
  // soil against a wheel is weaker than soil in place: 3.5e3 to 7e3 dyn/cm² (NASA SP-235), typically 520 Pa at 42° (Nature Communications 15 (2024) 46233-8, seen)
  expect(lunarTrafficability.cohesionPa).toBeLessThan(0.1 * 3.5e3);
  expect(angle).toBeLessThan(42);
});

test("centimetres instead of metres would be seen", () => expect(lunarDensity(15)).toBeGreaterThan(1900));

test("wrong calls", () => {
  expect(() => lunarDensity(-1)).toThrow(/depth/);
  expect(() => lunarMeanDensity(0)).toThrow(/depth/);
});
