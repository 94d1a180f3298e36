import { expect, test } from "vitest";
import { fittedShearCurve } from "../../../src/processing/measures/shearModulus.ts";
import { shearStrengthOf } from "../../../src/processing/measures/shearStrengthOf.ts";
import type { ShearPoint } from "../../../src/processing/measures/shearStrengthOf.ts";
import { reduceShearRun } from "../../../src/processing/shearRun.ts";
import { plan, preparedRun } from "../../helpers/pressRun.ts";

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

/** R. Kruger, P. S. Els, H. A. Hamersma, J. Terramechanics 109 (2023) 45–62, open data CC BY 4.0: Cullinan sand sheared under 93 kPa, means about each displacement [mm, kPa]; null = no sample near */
const displacementsMm = [0.5, 1, 2, 3, 5, 7.5, 10, 15, 20, 30, 40, 60, 80, 100, 120, 150, 180];
const cullinan: readonly (readonly [name: string, stresses: readonly (number | null)[]])[] = [
  ["dense", [8, 10.8, 14.9, 19.3, 26.4, 32.3, 35.7, 39.6, 41.8, 43.9, 44, 42.2, 44.9, 49.1, 50.3, 51.9, 57.4]],
  ["medium", [8, 9.4, 14, null, null, 25.1, 28.3, 33.5, 37.6, 42.1, 45.1, 48.6, 50.4, 51.4, 55.2, 56.8, 61.5]],
  ["loose", [9.2, 10.7, null, 16.2, 20.4, 25.2, 29.1, 34.5, 38.1, 42, 44.9, 47.7, 49, 49.8, 51.4, 54.6, 57.8]],
];

test.each(cullinan)("real sand, %s, keeps climbing over 180 mm: the strength is what the travel makes it, and the run says so", (_, stresses) => {
  const points = displacementsMm.flatMap((mm, i): ShearPoint[] => (stresses[i] === null ? [] : [{ displacementM: mm / 1000, stressPa: 1000 * (stresses[i] as number) }]));
  expect(shearStrengthOf(points)?.shape).toBe("rising");
  const upTo = (travelM: number) => fittedShearCurve(points.filter(({ displacementM }) => displacementM <= travelM), null);
  expect((upTo(0.18)?.strengthPa ?? 0) / (upTo(0.03)?.strengthPa ?? 1)).toBeGreaterThan(1.1);
  expect((upTo(0.18)?.shearModulusM ?? 0) / (upTo(0.03)?.shearModulusM ?? 1)).toBeGreaterThan(1.25);
  const result = reduceShearRun(preparedRun(plan("shear", { shearAreaM2: 0.01, normalStressPa: 93e3 }), {
    shearForce: { unit: "N", samples: points.map(({ stressPa }) => 0.01 * stressPa) },
    shearDisplacement: { unit: "m", samples: points.map(({ displacementM }) => displacementM) },
  }));
  expect(result.findings.map(({ code }) => code)).toContain("shear-still-rising");
});
