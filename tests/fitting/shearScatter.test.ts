import { expect, test } from "vitest";
import { estimateFrom } from "../../src/core/estimate.ts";
import { shearScatter } from "../../src/fitting/shearScatter.ts";
import { shearStrengthFit } from "../../src/fitting/shearStrengthFit.ts";
import type { ShearTest } from "../../src/fitting/shearStrengthFit.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";
import { ownRow } from "../helpers/runResult.ts";

const stresses = [2e3, 5e3, 10e3, 15e3];
const shear = (bed: string | null, stressPa: number, strengthPa: number, ownPa = 20): ShearTest => ({
  run: `${bed} ${stressPa}`, bed, setStressPa: stressPa,
  normalStress: estimateFrom(stressPa, "Pa", "", []),
  strength: estimateFrom(strengthPa, "Pa", "", [ownRow(ownPa)]),
});
const inBeds = (strengths: readonly number[]): ShearTest[] => strengths.map((strength, i) => shear(i < 4 ? "A" : "B", stresses[i % 4] as number, strength));

test("scatter beyond the runs' own doubt goes with the strength", () => {
  const { line, beds } = shearScatter(inBeds([1790, 3880, 7050, 10700, 1840, 3760, 7290, 10350]));
  const source = "NumPy and SciPy: normal equations with weights 1/(u² + (s τ)²), s from brentq, repeated until they stand";
  agrees(line.intercept, { expected: 475.130206, relative: 1e-7, source });
  agrees(line.slope, { expected: 0.669581144, relative: 1e-8, source });
  agrees(Math.sqrt(line.covariance[0][0]), { expected: 34.5926191, relative: 1e-6, source });
  agrees(Math.sqrt(line.covariance[1][1]), { expected: 7.61709831e-3, relative: 1e-6, source });
  // the beds' mean square is 0.040, their runs' 1.19: no bed scatter to be seen
  expect(beds).toBeNull();
});

test("runs whose own doubt explains their scatter weigh alike; points on a line leave none", () => {
  expect(new Set(shearScatter(inBeds([1790, 3880, 7050, 10700, 1840, 3760, 7290, 10350]).map((one) => ({ ...one, strength: estimateFrom(one.strength.value, "Pa", "", [ownRow(300)]) }))).weights).size).toBe(1);
  const exact = shearScatter(stresses.map((stress) => shear(null, stress, 400 + 0.7 * stress, 0)));
  expect(exact.line.intercept).toBeCloseTo(400, 8);
  expect(exact.line.slope).toBeCloseTo(0.7, 10);
});

test("beds that differ more than their runs count once each", () => {
  const { line, beds } = shearScatter(inBeds([0.94, 0.94, 0.95, 0.94, 1.06, 1.07, 1.06, 1.06].map((factor, i) => factor * (400 + 0.7 * (stresses[i % 4] as number)))));
  expect(beds?.degreesOfFreedom).toBe(1);
  // two beds 6 % to either side of their mean: its standard uncertainty is half their difference
  expect(beds?.share).toBeCloseTo(0.06, 2);
  expect(line.degreesOfFreedom).toBe(5);
  expect(Math.sqrt(line.covariance[1][1]) / line.slope).toBeLessThan(0.01);
});

test("a bed that is not named, or that holds one run, tells nothing of beds", () => {
  const strengths = [0.94, 0.94, 0.95, 0.94, 1.06, 1.07, 1.06, 1.06].map((factor, i) => factor * (400 + 0.7 * (stresses[i % 4] as number)));
  expect(shearScatter(inBeds(strengths).map((one, i) => (i === 3 ? { ...one, bed: null } : one))).beds).toBeNull();
  expect(shearScatter(inBeds(strengths).map((one, i) => ({ ...one, bed: `bed ${i}` }))).beds).toBeNull();
});

// 300 made days: binomial sd 1.3 %; three sd either way
test.each([["hardly", 0.005], ["as their runs", 0.012], ["far more than their runs", 0.04]])("the intervals of c and φ hold the truth as often as they say: beds scatter %s", (_how, bedSd) => {
  const held = [0, 0];
  const trials = 300;
  for (let seed = 1; seed <= trials; seed++) {
    const random = seededRandom(seed);
    const tests = ["A", "B", "C", "D"].flatMap((bed) => {
      const firmer = 1 + bedSd * random.normal();
      return stresses.map((stress) => shear(bed, stress, (450 + 0.7 * stress) * firmer * (1 + 0.012 * random.normal()), 5));
    });
    shearStrengthFit(tests, []).fit.parameters.forEach(({ estimate }, i) => {
      const half = studentTQuantile(0.975, estimate.degreesOfFreedom) * (estimate.standardUncertainty ?? Number.NaN);
      if (Math.abs(estimate.value - [450, Math.atan(0.7)][i]!) <= half) held[i]!++;
    });
  }
  for (const count of held) {
    expect(count / trials).toBeGreaterThanOrEqual(0.91);
    expect(count / trials).toBeLessThanOrEqual(0.985);
  }
});
