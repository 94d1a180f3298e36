import { expect, test } from "vitest";
import { shearingRadius, widestLugSpacing } from "../../src/models/lugs.ts";
import { agrees } from "../helpers/agrees.ts";

const lugs = { count: 24, heightM: 0.01 };

test("radius by hand", () => {
  agrees(shearingRadius(0.1, lugs, 0.5), { expected: 0.105, relative: 1e-12, source: "R + κ h by hand" });
  expect(shearingRadius(0.1, lugs, 0)).toBe(0.1);
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
