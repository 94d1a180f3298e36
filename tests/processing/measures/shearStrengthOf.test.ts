import { expect, test } from "vitest";
import { shearStrengthOf } from "../../../src/processing/measures/shearStrengthOf.ts";

const curve = (stress: (j: number) => number) => Array.from({ length: 61 }, (_, i) => ({ displacementM: i / 1000, stressPa: stress(i / 1000) }));

test("a curve with a peak has the peak", () => {
  const found = shearStrengthOf(curve((j) => 1000 * (j < 0.01 ? j / 0.01 : 1 - 0.3 * Math.min(1, (j - 0.01) / 0.02))));
  expect(found?.shape).toBe("peaked");
  expect(found?.peakDisplacementM).toBe(0.011);
  expect(found?.stressPa).toBeCloseTo((1000 + 985 + 970) / 3, 6);
});

test("a curve that ends flat has its end, one that climbs is called rising", () => {
  const flat = shearStrengthOf(curve((j) => 1000 * (1 - Math.exp(-j / 0.006))));
  expect(flat?.shape).toBe("levelled");
  expect(flat?.stressPa).toBeCloseTo(1000, -1);
  const rising = shearStrengthOf(curve((j) => 1000 + 20e3 * j));
  expect(rising?.shape).toBe("rising");
  expect(rising?.lateRise).toBeCloseTo(400 / 2080, 2);
});

test("too few points have no shape", () => {
  expect(shearStrengthOf(curve((j) => j).slice(0, 7))).toBeNull();
});
