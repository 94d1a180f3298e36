import { expect, test } from "vitest";
import { rigidWheelForces } from "../../src/models/rigidWheel.ts";
import { lugStress, shearingRadius, widestLugSpacing } from "../../src/models/lugs.ts";
import { agrees } from "../helpers/agrees.ts";

const lugs = { count: 24, heightM: 0.01 };

test("radius by hand", () => {
  agrees(shearingRadius(0.1, lugs, 0.5), { expected: 0.105, relative: 1e-12, source: "R + κ h by hand" });
  expect(shearingRadius(0.1, lugs, 0)).toBe(0.1);
});

const clay = { cohesionPa: 20_000, frictionAngleRad: (6 * Math.PI) / 180, unitWeight: 16_000 };

test("a lug far from the next pushes with its whole height", () => {
  // one lug of 0.15 m on a drum of 0.6 m: 1.7214 kN on a width of 0.25 m, spread over the drum's surface
  agrees(lugStress(clay, 0.6, { count: 1, heightM: 0.15 }, 0) * 2 * Math.PI * 0.6 * 0.25, { expected: 1721.4, relative: 1e-4, source: "blade of 0.25 m by 0.15 m, c 20 kPa, φ 6°, γ 16 kN/m³: inputs of a worked example in J. Y. Wong, Theory of Ground Vehicles, ch. 2, from memory, Rankine's sum by hand" });
});

test("what shears along the tips pushes no wedge, and half the height by hand", () => {
  expect(lugStress(clay, 0.6, { count: 24, heightM: 0.15 }, 1)).toBe(0);
  expect(lugStress(clay, 0.6, { count: 0, heightM: 0.15 }, 0)).toBe(0);
  // κ ½, h 20 mm: d 10 mm; dry sand c 0, N_φ 3 at 30°: ½ · 16000 · 1e-4 · 3 = 2.4 N/m a lug; 24 lugs on r_s 0.11 m
  agrees(lugStress({ cohesionPa: 0, frictionAngleRad: Math.PI / 6, unitWeight: 16_000 }, 0.1, { count: 24, heightM: 0.02 }, 0.5), { expected: (24 * 2.4) / (2 * Math.PI * 0.11), relative: 1e-12, source: "N_φ = 3 at 30°, by hand" });
});

test("a spinning wheel gains the blades that stand in its contact", () => {
  const soil = { stiffness: 1e6, exponent: 1, exponentBySlip: 0, cohesionPa: 500, frictionAngleRad: Math.PI / 6, shearModulusM: 1e-6, stressAngle: 0.4, stressAngleBySlip: 0, rebound: 0 };
  const wheel = { radiusM: 0.1, widthM: 0.08 };
  const stress = lugStress({ ...soil, unitWeight: 16_000 }, 0.1, { count: 24, heightM: 0.01 }, 0);
  const gained = rigidWheelForces(wheel, { ...soil, cohesionPa: 500 + stress }, 1, 0.01).torqueNm - rigidWheelForces(wheel, soil, 1, 0.01).torqueNm;
  // contact from the axle's foot to acos(0.9), one lug every 15°; F/b = ½ · 16000 · 1e-4 · 3 + 2 · 500 · 0.01 · √3
  agrees(gained, { expected: (Math.acos(0.9) / (Math.PI / 12)) * 0.08 * (2.4 + 10 * Math.sqrt(3)) * 0.1, relative: 1e-3, source: "number of lugs in contact times Rankine's force times R, by hand; K of 1 µm leaves less than 1e-3 unmobilised" });
});

test("spacing: where a tip enters ahead of the rim, by geometry", () => {
  // R 0.1 m, h 0.01 m, z 0.01 m: the surface cuts the tip circle √(0.11² − 0.09²) and the rim √(0.1² − 0.09²) ahead of the axle
  const ahead = Math.sqrt(0.11 ** 2 - 0.09 ** 2) - Math.sqrt(0.1 ** 2 - 0.09 ** 2);
  agrees(widestLugSpacing(0.1, lugs, 0.01, 0), { expected: ahead / 0.1, relative: 1e-12, source: "Pythagoras at the surface, by hand" });
  agrees(widestLugSpacing(0.1, lugs, 0.01, 0.5), { expected: (2 * ahead) / 0.1, relative: 1e-12, source: "at slip 0.5 the wheel turns twice as far a distance, by hand" });
});

test("no lugs, no spacing", () => expect(widestLugSpacing(0.1, { count: 0, heightM: 0 }, 0.01, 0.2)).toBe(0));

test("wrong calls", () => {
  expect(() => shearingRadius(0.1, lugs, 2)).toThrow(/share/);
  expect(() => widestLugSpacing(0.1, lugs, 0.01, 1)).toThrow(/s < 1/);
});
