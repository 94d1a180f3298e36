import { expect, test } from "vitest";
import { roughnessClass, roughnessRms, slopeDensity } from "../../src/models/groundRoughness.ts";
import { agrees } from "../helpers/agrees.ts";

/** G_d(n₀) of the classes' middles and upper limits [10⁻⁶ m³]: ISO 8608:2016, annex (from memory) */
const middles = [16, 64, 256, 1024, 4096, 16384, 65536, 262144];
const limits = [32, 128, 512, 2048, 8192, 32768, 131072];

test("classes by their middles and limits; the last is open", () => {
  middles.forEach((middle, i) => expect(roughnessClass(middle * 1e-6)).toBe("ABCDEFGH"[i]));
  limits.forEach((limit, i) => {
    expect(roughnessClass(limit * 0.999e-6)).toBe("ABCDEFGH"[i]);
    expect(roughnessClass(limit * 1.001e-6)).toBe("ABCDEFGH"[i + 1]);
  });
  expect([roughnessClass(1e-9), roughnessClass(10)]).toEqual(["A", "H"]);
});

test("height and slope of a class C ground", () => {
  const source = "class C, 256·10⁻⁶ m³: integrals of the profile law of ISO 8608, worked by an independent program";
  agrees(roughnessRms(256e-6, 0.011, 2.83), { expected: 0.0152257, within: 6e-8, source });
  agrees(roughnessRms(256e-6, 0.1, 10), { expected: 0.00503428, within: 6e-9, source });
  agrees(slopeDensity(256e-6), { expected: 1.0106475e-4, relative: 1e-7, source });
});

test("wrong calls", () => {
  expect(() => roughnessClass(0)).toThrow(/roughness above 0/);
  expect(() => roughnessRms(1, 1, 1)).toThrow(/band/);
  expect(() => slopeDensity(-1)).toThrow(/roughness above 0/);
});
