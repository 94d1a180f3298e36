import { describe, expect, test } from "vitest";
import { granularScaling } from "../../src/models/granularScaling.ts";
import { resistiveForceWheel } from "../../src/models/resistiveForceWheel.ts";
import { agrees } from "../helpers/agrees.ts";

const trip = { gravity: 9.81, radiusM: 0.1, widthM: 0.05, massKg: 3, turningRadPerS: 1 };
const law = "granular scaling law, J. Slonaker et al. 2017, exponents from memory, worked by hand";
const moon = 1.62 / 9.81;

test("twice the size, four times the mass", () => {
  const { trip: other, factors } = granularScaling(trip, 1, 2, 4);
  agrees(other.turningRadPerS, { expected: 0.70711, within: 6e-6, source: law });
  agrees(other.widthM / trip.widthM, { expected: 1, relative: 1e-12, source: law });
  agrees(factors.power, { expected: 5.65685, within: 6e-6, source: law });
  agrees(factors.speed, { expected: 1.41421, within: 6e-6, source: law });
  agrees(factors.force, { expected: 4, relative: 1e-12, source: law });
  agrees(factors.torque, { expected: 8, relative: 1e-12, source: law });
});

test("the same wheel and mass on the Moon", () => {
  const { trip: other, factors } = granularScaling(trip, moon, 1, 1);
  agrees(other.turningRadPerS, { expected: 0.40637, within: 6e-6, source: law });
  agrees(factors.power, { expected: 0.067107, within: 6e-7, source: law });
  agrees(factors.speed, { expected: 0.40637, within: 6e-6, source: law });
  agrees(factors.force, { expected: 0.16514, within: 6e-6, source: law });
});

test("the same weight on the Moon: six times mass and width", () => {
  const { trip: other, factors } = granularScaling(trip, moon, 1, 1 / moon);
  agrees(other.widthM / trip.widthM, { expected: 6.0556, within: 6e-5, source: law });
  agrees(factors.force, { expected: 1, relative: 1e-12, source: law });
  agrees(factors.power, { expected: 0.40637, within: 6e-6, source: law });
});

test("what dimensional analysis says must not change does not: g/(Lω²) and ρDL²/M", () => {
  const invariants = ({ gravity, radiusM, turningRadPerS, widthM, massKg }: typeof trip) => [gravity / (radiusM * turningRadPerS ** 2), (1700 * widthM * radiusM ** 2) / massKg] as const;
  for (const [q, r, s] of [[1, 2, 4], [moon, 1, 1], [moon, 1, 1 / moon], [0.3, 3, 0.7]] as const) {
    const [first, second] = invariants(granularScaling(trip, q, r, s).trip);
    agrees(first, { expected: 98.1, relative: 1e-9, source: "g/(L ω²) of the trip that is known, by hand" });
    agrees(second, { expected: 0.283333333333, relative: 1e-9, source: "ρ D L²/M of the trip that is known, by hand" });
  }
});

describe("held against a wheel whose soil resists by depth and in proportion to gravity", () => {
  const earthStress = 1e6;
  const slip = 0.25;
  const rolled = (radiusM: number, widthM: number, stress: number, loadN: number) => {
    const found = resistiveForceWheel({ radiusM, widthM }, stress, slip, loadN);
    if ("reason" in found) throw new Error(found.reason);
    return found;
  };
  const known = rolled(trip.radiusM, trip.widthM, earthStress, trip.massKg * trip.gravity);

  test("the scaled trip has the foretold pull, torque and sinkage", () => {
    for (const [q, r, s] of [[moon, 1, 1], [moon, 1, 1 / moon], [1, 2, 4], [0.5, 1.5, 2]] as const) {
      const { trip: other, factors } = granularScaling(trip, q, r, s);
      const found = rolled(other.radiusM, other.widthM, earthStress * q, other.massKg * other.gravity);
      const source = "resistive-force law, stress per depth ∝ ρ g, from which the scaling was derived: J. Slonaker et al. 2017; flights in lunar gravity met it within 10 % (C. Daca et al. 2023, abstract), computed grains within 5 % (S. Omura and G. Ishigami 2026, abstract)";
      agrees(found.pullN / known.pullN, { expected: factors.force, relative: 1e-6, source });
      agrees(found.torqueNm / known.torqueNm, { expected: factors.torque, relative: 1e-6, source });
      agrees(found.sinkageM / known.sinkageM, { expected: factors.sinkage, relative: 1e-6, source });
    }
  });

  test("a lighter load on the ground is another thing than less gravity: it takes the sinkage for less than half", () => {
    // T. Kobayashi et al., J. Terramechanics 47 (2010) 261–274, abstract: sinkage hardly changes with gravity, and falls with the load on the ground
    const lighter = rolled(trip.radiusM, trip.widthM, earthStress, trip.massKg * trip.gravity * moon);
    const there = rolled(trip.radiusM, trip.widthM, earthStress * moon, trip.massKg * trip.gravity * moon);
    expect(granularScaling(trip, moon, 1, 1).factors.sinkage).toBe(1);
    agrees(there.sinkageM / known.sinkageM, { expected: 1, relative: 1e-6, source: "T. Kobayashi et al. 2010, abstract" });
    // S. Omura and G. Ishigami, J. Terramechanics 122 (2026) 101104, abstract: a test at reduced weight is off by more than 100 %
    expect(there.sinkageM / lighter.sinkageM - 1).toBeGreaterThan(1);
  });
});

test("wrong call", () => expect(() => granularScaling(trip, 0, 1, 1)).toThrow(/ratios/));
