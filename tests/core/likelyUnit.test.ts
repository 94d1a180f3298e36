import { expect, test } from "vitest";
import { likelyUnit } from "../../src/core/likelyUnit.ts";

test.each([
  [9.81, "force", "kilogram-force"],
  [1 / 4.45, "force", "pound-force"],
  [10.4, "force", "a factor of ten"],
  [2.2, "force", "pound-force and kilogram-force"],
  [1000, "force", "kilonewton"],
  [25.4, "length", "inch and millimetre"],
  [2, "length", "diameter and radius"],
  [1000, "length", "millimetre and metre"],
  [1 / 57.3, "turning", "degree and radian"],
  [60, "turning", "per minute and per second"],
  [4.03, "turning", "fourfold"],
  [60, "speed", "per minute"],
  [3.6, "speed", "kilometre per hour"],
  [9.79, "acceleration", "standard gravity"],
  [9.8, "mass", "weight in newton"],
  [0.454, "mass", "pound and kilogram"],
  [1000, "mass", "gram and kilogram"],
  [6.9, "pressure", "psi"],
  [1.36, "torque", "pound-force foot"],
] as const)("%d of a %s: %s", (ratio, kind, words) => expect(likelyUnit(ratio, kind)).toContain(words));

test("two mistakes that a measurement cannot tell apart are both named, the nearer first", () => {
  expect(likelyUnit(9.85, "force")).toBe(" It is off by 9.85, near 9.807: kilogram-force and newton mistaken for each other (or a factor of ten)?");
  expect(likelyUnit(58, "turning")).toMatch(/degree and radian.*\(or per minute/);
  expect(likelyUnit(4.45, "force")).not.toContain("(or");
});

test("near 1, or near nothing known, nothing is named", () => {
  for (const ratio of [1, 1.2, 0.9, 7, NaN, 0, Infinity]) expect(likelyUnit(ratio, "force")).toBe("");
});
