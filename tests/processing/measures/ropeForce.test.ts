import { expect, it } from "vitest";
import type { Unit } from "../../../src/core/units.ts";
import type { Reading } from "../../../src/processing/measures/reading.ts";
import { offLoaded, ropeForce } from "../../../src/processing/measures/ropeForce.ts";
import { agrees } from "../../helpers/agrees.ts";

const g = 9.81;
const steady = <U extends Unit>(value: number, unit: U, effect = 0, cause = "x"): Reading<U> => ({ unit, value, perRevolution: [value, value], rows: [{ cause, effect, sharedBy: null, degreesOfFreedom: Infinity }] });
const rope = { mass: 2, massUncertainty: 0.01, ratio: 1, friction: 0.06 };

it("a hanging mass pulls with its weight, with more while it is lifted faster and faster, and twice on a loose pulley", () => {
  agrees(ropeForce(rope, g, steady(0, "m/s2"), "t").value, { expected: 19.62, relative: 1e-12, source: "2 kg · 9.81 m/s²" });
  agrees(ropeForce(rope, g, steady(0.5, "m/s2"), "t").value, { expected: 20.62, relative: 1e-12, source: "F = m (g + a), 2 kg · 10.31 m/s²" });
  agrees(ropeForce({ ...rope, ratio: 2 }, g, steady(0.5, "m/s2"), "t").value, { expected: 43.24, relative: 1e-12, source: "two rope forces; the mass rises with 2 a: 2 · 2 kg · 10.81 m/s²" });
});

it("friction and mass stand in the budget", () => {
  const { rows } = ropeForce(rope, g, steady(0, "m/s2"), "t");
  const effect = (cause: string): number => rows.find((row) => row.cause.startsWith(cause))?.effect ?? Number.NaN;
  agrees(effect("friction"), { expected: (0.06 * 19.62) / Math.sqrt(3), relative: 1e-6, source: "rectangular distribution of 6 % either way (JCGM 100, 4.3.7)" });
  agrees(effect("mass"), { expected: 0.0981, relative: 1e-6, source: "9.81 m/s² · 0.01 kg" });
});

it("the load is the weight less the rope's upward part", () => {
  const level = offLoaded(steady(10, "kg"), ropeForce(rope, g, steady(0, "m/s2"), "t"), steady(0, "rad"), steady(0, "m/s2"), g);
  agrees(level.value, { expected: 78.48, relative: 1e-12, source: "8 kg · 9.81 m/s²" });
  const slanting = offLoaded(steady(10, "kg"), ropeForce(rope, g, steady(0, "m/s2"), "t"), steady(Math.PI / 3, "rad", 0.01, "angle"), steady(0, "m/s2"), g);
  agrees(slanting.value, { expected: 88.29, relative: 1e-12, source: "cos 60° = 1/2: 9 kg · 9.81 m/s²" });
  agrees(slanting.rows.find((row) => row.cause === "angle")?.effect ?? NaN, { expected: 19.62 * Math.sin(Math.PI / 3) * 0.01, relative: 1e-4, source: "F sin θ u(θ), by hand" });
});

it("falling free with its mass on the rope, two masses press on nothing: Atwood's machine", () => {
  // 10 kg and 2 kg over a pulley without ground: z̈ = −(M − m) g / (M + m).
  const a = -((10 - 2) * g) / 12;
  const rising = steady(a, "m/s2");
  const force = ropeForce(rope, g, steady(-a, "m/s2"), "t");
  agrees(force.value, { expected: (2 * 10 * 2 * g) / 12, relative: 1e-12, source: "Atwood's machine: rope force 2 M m g / (M + m)" });
  expect(Math.abs(offLoaded(steady(10, "kg"), force, steady(0, "rad"), rising, g).value)).toBeLessThan(1e-9);
});
