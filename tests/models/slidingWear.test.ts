import { expect, test } from "vitest";
import { slidingDistance, wornVolume } from "../../src/models/slidingWear.ts";
import { agrees } from "../helpers/agrees.ts";

const mm3 = 1e-9;
const law = "Archard's law as printed in a tribology text (third-party copy seen), worked by hand";

test("worn volume and specific wear rate", () => {
  const volume = wornVolume(1e-5, 100, 1000, 500e6);
  agrees(volume / mm3, { expected: 2, relative: 1e-12, source: `${law}: K = 1e-5, F = 100 N, L = 1000 m, H = 500 MPa` });
  agrees(volume / mm3 / (100 * 1000), { expected: 2e-5, relative: 1e-12, source: `${law}: K/H in mm³/(N·m)` });
});

test("thinning and mass follow from the volume", () => {
  const perSecond = wornVolume(1e-5, 100, 1, 500e6);
  agrees(perSecond / mm3, { expected: 2e-3, relative: 1e-12, source: `${law}: v = 1 m/s` });
  agrees(perSecond / 10e-4, { expected: 2e-9, relative: 1e-12, source: `${law}: 2.0e-6 mm/s over 10 cm²` });
  agrees(perSecond * 7800, { expected: 1.56e-8, relative: 1e-12, source: `${law}: steel of 7800 kg/m³` });
});

test("sliding distance", () => {
  agrees(slidingDistance(1000, 0.2), { expected: 250, relative: 1e-12, source: "by hand: the rim passes 1250 m" });
  expect(slidingDistance(1000, 0)).toBe(0);
});

test("wrong calls", () => {
  expect(() => wornVolume(1, 1, 1, 0)).toThrow(/H above 0/);
  expect(() => wornVolume(-1, 1, 1, 1)).toThrow(/wornVolume/);
  expect(() => slidingDistance(1, 1)).toThrow(/slip/);
  expect(() => slidingDistance(1, -0.1)).toThrow(/slip/);
});
