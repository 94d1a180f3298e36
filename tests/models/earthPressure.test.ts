import { expect, test } from "vitest";
import { bearingFactors, bulldozingResistance, passiveForce } from "../../src/models/earthPressure.ts";
import { agrees } from "../helpers/agrees.ts";

const deg = Math.PI / 180;

test("bearing capacity factors", () => {
  const rows = [[33, 32.23, 48.09, 0.005], [34, 36.5, 52.6, 0.05], [35, 41.4, 57.8, 0.05]] as const;
  for (const [angle, surcharge, cohesion, within] of rows) {
    const source = "Terzaghi's factors: 34° and 35° as printed in a public table (seen), 33° as on a lecture's slide";
    const found = bearingFactors(angle * deg);
    agrees(found.surcharge, { expected: surcharge, within, source });
    agrees(found.cohesion, { expected: cohesion, within, source });
  }
});

test("passive force on a lug", () => {
  agrees(passiveForce({ cohesionPa: 20e3, frictionAngleRad: 6 * deg, unitWeight: 16e3 }, 0.25, 0.15), { expected: 1721.4, within: 0.06, source: "Rankine's passive pressure with b 0.25 m, h 0.15 m, c 20 kPa, φ 6°, γ 16 kN/m³ (inputs of a textbook example, from memory), worked by hand" });
  expect(passiveForce({ cohesionPa: 1, frictionAngleRad: 0.5, unitWeight: 1 }, 0.25, 0)).toBe(0);
});

test("bulldozing of the rover of 1971, lecture example", () => {
  const soil = { cohesionPa: 170, frictionAngleRad: 0.576, unitWeight: 2472 };
  const found = bulldozingResistance(soil, 0.229, 0.813, 0.017311, 33.27);
  agrees(found, { expected: 90.4, within: 0.15, source: "the printed formula worked by an independent program with K_c 33.37 and K_γ 72.77" });
  agrees(found, { expected: 95, relative: 0.06, source: "planetary surface robotics lecture on terramechanics; its angles belong to a sinkage 0.8 mm larger, hence 6 %" });
});

test("wrong calls", () => {
  const soil = { cohesionPa: 1, frictionAngleRad: 0.5, unitWeight: 1 };
  expect(() => bearingFactors(0)).toThrow(/friction angle/);
  expect(() => passiveForce({ ...soil, frictionAngleRad: 1.6 }, 1, 1)).toThrow(/friction angle/);
  expect(() => passiveForce(soil, -1, 1)).toThrow(/width/);
  expect(() => bulldozingResistance(soil, 1, 1, 1, 30)).toThrow(/sinkage/);
});
