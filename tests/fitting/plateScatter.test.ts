import { expect, test } from "vitest";
import { bedFindings, plateScatter } from "../../src/fitting/plateScatter.ts";
import { plateGroups } from "../../src/fitting/plateTests.ts";
import type { PlateTest } from "../../src/fitting/plateTests.ts";
import { pressureSinkageFit } from "../../src/fitting/pressureSinkageFit.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { plateTestsOf } from "../helpers/plateTests.ts";

const soil = { n: 0.8, kc: 20e3, kphi: 2e6, sdExponent: 0.03, sdLogPressure: 0.05 };

test("every run in its own bed: scatter of the runs, not of the points, over their number", () => {
  const { covariance, degreesOfFreedom, cause } = plateScatter(plateGroups(plateTestsOf(soil, [0.05, 0.1], 200, 3)));
  expect(degreesOfFreedom).toBe(398);
  expect(cause).toMatch(/^scatter from run to run, /);
  // n: 0.03/√200; a sample sd over 398 degrees of freedom is good to 3.5 %
  expect(Math.sqrt(covariance?.[0]?.[0] ?? 0) / (0.03 / Math.sqrt(200))).toBeGreaterThan(0.9);
  expect(Math.sqrt(covariance?.[0]?.[0] ?? 0) / (0.03 / Math.sqrt(200))).toBeLessThan(1.1);
  expect(covariance?.[0]?.[2]).toBe(0);
});

/** Beds whose stiffness and exponent scatter as a whole, every width pressed once in each, with a little scatter of its own. */
function bedDay(seed: number, beds: number): PlateTest[] {
  const random = seededRandom(seed);
  return Array.from({ length: beds }, (_, bed) => {
    const stiffer = Math.exp(0.05 * random.normal());
    const own = { ...soil, n: soil.n + 0.02 * random.normal(), sdExponent: 0.004, sdLogPressure: 0.008 };
    return plateTestsOf({ ...own, kc: own.kc * stiffer * 0.02 ** (soil.n - own.n), kphi: own.kphi * stiffer * 0.02 ** (soil.n - own.n) }, [0.05, 0.1], 1, 1000 * seed + bed).map((one) => ({ ...one, run: `${one.run} in ${bed}`, bed: `B${bed}` }));
  }).flat();
}

// 400 made days of 4 beds; binomial sd 1.1 %; exp() under 3 degrees of freedom allows some caution: 92…98.5 %
test("widths that share beds: the intervals hold the truth, and what the beds share cancels in k_c", () => {
  const truth = [soil.n, soil.kc, soil.kphi];
  const held = [0, 0, 0];
  let shared = 0;
  let apart = 0;
  for (let seed = 1; seed <= 400; seed++) {
    const tests = bedDay(seed, 4);
    const groups = plateGroups(tests);
    const scatter = plateScatter(groups);
    expect(scatter).toMatchObject({ degreesOfFreedom: 3, cause: expect.stringMatching(/^scatter from bed to bed, /) });
    const { parameters } = pressureSinkageFit(groups, scatter, [], "");
    parameters.forEach(({ estimate }, i) => {
      if (Math.abs(estimate.value - (truth[i] as number)) <= studentTQuantile(0.975, estimate.degreesOfFreedom) * (estimate.standardUncertainty ?? Number.NaN)) held[i] = (held[i] as number) + 1;
    });
    shared += parameters[1]?.estimate.standardUncertainty ?? 0;
    const own = plateGroups(tests.map((one) => ({ ...one, bed: null })));
    apart += pressureSinkageFit(own, plateScatter(own), [], "").parameters[1]?.estimate.standardUncertainty ?? 0;
  }
  held.forEach((count, i) => {
    expect(count / 400, ["n", "k_c", "k_φ"][i]).toBeGreaterThanOrEqual(0.92);
    expect(count / 400, ["n", "k_c", "k_φ"][i]).toBeLessThanOrEqual(0.985);
  });
  expect(shared).toBeLessThan(apart / 2);
}, 60_000);

test("nothing repeated, no scatter", () => {
  expect(plateScatter(plateGroups(plateTestsOf(soil, [0.05, 0.1], 1, 1))).covariance).toBeNull();
  expect(plateScatter(plateGroups(bedDay(1, 1))).covariance).toBeNull();
  // two beds, but the second width in one of them only
  expect(plateScatter(plateGroups(bedDay(1, 2).slice(0, 3))).covariance).toBeNull();
});

test("beds that do not hang together count apart", () => {
  const inBeds = (tests: readonly PlateTest[], names: readonly string[]): PlateTest[] => tests.map((one, i) => ({ ...one, bed: names[i] as string }));
  const tests = [...inBeds(plateTestsOf(soil, [0.05], 4, 1), ["A", "A", "B", "C"]), ...inBeds(plateTestsOf(soil, [0.1], 4, 2), ["D", "E", "F", "F"])];
  expect(plateScatter(plateGroups(tests)).degreesOfFreedom).toBe(4);
});

test("beds far apart are said", () => {
  const far = plateTestsOf({ ...soil, sdLogPressure: 0.4 }, [0.05], 4, 3).map((one, i) => ({ ...one, bed: `B${i}` }));
  expect(bedFindings(plateGroups(far))[0]?.code).toBe("beds-far-apart");
  expect(bedFindings(plateGroups(far.map((one) => ({ ...one, bed: "B1" }))))).toEqual([]);
  expect(bedFindings(plateGroups(plateTestsOf(soil, [0.05], 4, 3).map((one, i) => ({ ...one, bed: `B${i}` }))))).toEqual([]);
});
