import { expect, test } from "vitest";
import { estimateFrom } from "../../src/core/estimate.ts";
import type { BudgetRow } from "../../src/core/estimate.ts";
import { shearStrengthFit } from "../../src/fitting/shearStrengthFit.ts";
import type { ShearTest } from "../../src/fitting/shearStrengthFit.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";
import { ownRow, sharedRow } from "../helpers/runResult.ts";

const shear = (run: string, stressPa: number, strengthPa: number, strengthRows: readonly BudgetRow[] = [], stressRows: readonly BudgetRow[] = [], ownPa = 50): ShearTest => ({
  run,
  bed: null,
  normalStress: estimateFrom(stressPa, "Pa", "", [ownRow(10), ...stressRows]),
  strength: estimateFrom(strengthPa, "Pa", "", [ownRow(ownPa), ...strengthRows]),
  setStressPa: null,
});

test("four points on a line, whose own doubt explains how they scatter: they weigh alike", () => {
  const { fit } = shearStrengthFit([[5, 4], [10, 7.6], [20, 14.1], [40, 27.4]].map(([s, t]) => shear(`s${s}`, 1000 * (s as number), 1000 * (t as number), [], [], 500)), []);
  const source = "ordinary least squares of the four points, worked by an independent program";
  agrees((fit.parameters[0]?.estimate.value ?? 0) / 1000, { expected: 0.79565, relative: 1e-5, source });
  agrees(Math.tan(fit.parameters[1]?.estimate.value ?? 0), { expected: 0.665565, relative: 1e-5, source });
  agrees(((fit.parameters[1]?.estimate.value ?? 0) * 180) / Math.PI, { expected: 33.646, within: 5e-4, source });
});

const friction = 0.7;
const cohesion = 400;
const stresses = [2e3, 5e3, 10e3, 20e3];
const made = (seed: number, scatterPa = 250, share = 0): ShearTest[] => {
  const random = seededRandom(seed);
  return stresses.flatMap((stress) => [1, 2].map((repeat) => shear(`s${stress}r${repeat}`, stress, (cohesion + stress * friction) * (1 + share * random.normal()) + scatterPa * random.normal(), [], [], scatterPa)));
};

/** Winding of a closed outline about a point, both axes scaled alike. */
function inside(outline: readonly (readonly [number, number])[], [x, y]: readonly [number, number]): boolean {
  let within = false;
  for (let i = 0; i + 1 < outline.length; i++) {
    const [ax, ay] = outline[i] as readonly [number, number];
    const [bx, by] = outline[i + 1] as readonly [number, number];
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) within = !within;
  }
  return within;
}

// 600 made days: binomial sd 0.9 %; the method is exact but for φ = atan(slope) and the outline's 72 corners: ± 3 sd
test.each([["as their own doubt says", 250, 0], ["in proportion to the strength", 5, 0.02]])("the joint region and the single intervals hold the truth as often as they say: runs scatter %s", (_how, scatterPa, share) => {
  const held = { region: 0, cohesion: 0, angle: 0 };
  const trials = 600;
  for (let seed = 1; seed <= trials; seed++) {
    const { fit, jointRegion } = shearStrengthFit(made(seed, scatterPa, share), []);
    expect(fit.verdict).toBe("determined");
    const [c, phi] = fit.parameters.map((parameter) => parameter.estimate);
    const half = (estimate: typeof c): number => studentTQuantile(0.975, estimate?.degreesOfFreedom ?? 0) * (estimate?.standardUncertainty ?? Number.NaN);
    if (inside(jointRegion, [cohesion, Math.atan(friction)])) held.region++;
    if (Math.abs((c?.value ?? 0) - cohesion) <= half(c)) held.cohesion++;
    if (Math.abs((phi?.value ?? 0) - Math.atan(friction)) <= half(phi)) held.angle++;
  }
  for (const [name, count] of Object.entries(held)) {
    expect(count / trials, name).toBeGreaterThanOrEqual(0.923);
    expect(count / trials, name).toBeLessThanOrEqual(0.977);
  }
}, 30_000);

test("the outline is closed and turns about the estimate", () => {
  const { fit, jointRegion } = shearStrengthFit(made(3), []);
  expect(jointRegion[0]).toEqual(jointRegion.at(-1));
  expect(inside(jointRegion, [fit.parameters[0]?.estimate.value ?? 0, fit.parameters[1]?.estimate.value ?? 0])).toBe(true);
});

test("a shared gain of the shear force moves c and tan φ by its share and does not average away", () => {
  const tests = made(1).map((one) => shear(one.run, one.normalStress.value, one.strength.value, [sharedRow(0.01 * one.strength.value, "calibration SF")]));
  const { fit } = shearStrengthFit(tests, []);
  const [c, phi] = fit.parameters.map((parameter) => parameter.estimate);
  const effect = (estimate: typeof c): number => estimate?.budget.find((row) => row.cause === "calibration SF")?.effect ?? 0;
  expect(effect(c) / (c?.value ?? 1)).toBeCloseTo(0.01, 6);
  const slope = Math.tan(phi?.value ?? 0);
  expect(effect(phi)).toBeCloseTo((0.01 * slope) / (1 + slope ** 2), 6);
});

test("one sensor for both forces: its gain cancels in the friction angle", () => {
  const tests = stresses.map((stress) => {
    const strength = stress * friction;
    return shear(`s${stress}`, stress, strength, [sharedRow(0.01 * strength, "calibration F")], [sharedRow(0.01 * stress, "calibration F")]);
  });
  const phi = shearStrengthFit(tests, []).fit.parameters[1]?.estimate;
  expect(Math.abs(phi?.budget.find((row) => row.cause === "calibration F")?.effect ?? 0)).toBeLessThan(1e-9);
});

test("two normal stresses give no line, however many runs; negative cohesion is kept and said", () => {
  const two = shearStrengthFit([5e3, 5e3, 10e3, 10e3].map((stress, i) => shear(`s${i}`, stress, 0.7 * stress)), []);
  expect(two.fit.verdict).toBe("undetermined");
  expect(two.fit.sentence).toContain("at least 3");
  expect(two.jointRegion).toEqual([]);
  const bent = shearStrengthFit([5e3, 10e3, 20e3].map((stress, i) => shear(`s${i}`, stress, 0.7 * stress - 500 + 10 * i)), []);
  expect(bent.fit.parameters[0]?.estimate.value).toBeLessThan(-400);
  expect(bent.fit.sentence).toContain("negative and kept so");
});
