import { expect, it } from "vitest";
import { coverageFactor } from "../../src/numerics/coverageFactor.ts";
import { agrees } from "../helpers/agrees.ts";

it("is Student's t without a rectangular part", () => {
  agrees(coverageFactor(2, 16, 0, 0, 0.99), { expected: 2.92, within: 0.005, source: "JCGM 100:2008, H.1.6: t99(16) = 2.92" });
});

it("is p √3 without a normal part", () => {
  agrees(coverageFactor(0, Infinity, 0, 3, 0.95), { expected: 1.65, within: 0.005, source: "EA-4/02 M:2022, supplement S9.14 (rectangular: k = 1.65; from memory)" });
});

it("holds the interval of a wide rectangle beside narrow causes", () => {
  const half = coverageFactor(0, Infinity, Math.sqrt(3), 10, 0.95) * Math.hypot(Math.sqrt(3), 10);
  agrees(half, { expected: 17.0, within: 0.05, source: "JCGM 101:2008, 9.2.4 (from memory): ±17.0; the narrow causes are rectangular there, whose sum is nearly normal" });
});

it("goes over into the normal factor as the rectangle shrinks", () => {
  expect(coverageFactor(0, Infinity, 1, 0.3, 0.95)).toBeCloseTo(1.96, 1);
  expect(coverageFactor(0, Infinity, 1, 2e-4, 0.95)).toBeCloseTo(coverageFactor(0, Infinity, 1, 0, 0.95), 4);
});

it("a normal part known from few values widens the interval", () => {
  expect(coverageFactor(1, 3, 0, 1, 0.95)).toBeGreaterThan(1.2 * coverageFactor(0, Infinity, 1, 1, 0.95));
});

it("has no factor where nothing is uncertain", () => {
  expect(coverageFactor(0, Infinity, 0, 0, 0.95)).toBeNaN();
});
