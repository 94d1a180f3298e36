import { describe, expect, test } from "vitest";
import { wheelBootstrap } from "../../src/fitting/wheelBootstrap.ts";
import { wheelSoilFit } from "../../src/fitting/wheelSoilFit.ts";
import type { WheelModelToFit } from "../../src/fitting/wheelSoilFit.ts";
import type { WheelObservation } from "../../src/fitting/wheelObservations.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { standardDeviation } from "../../src/numerics/statistics.ts";
import { madeWheelRuns } from "../helpers/madeWheelRuns.ts";
import { agrees } from "../helpers/agrees.ts";

/** pull/W is the first parameter; nothing tells the second. */
const level: WheelModelToFit = {
  model: ([a = 0], _wheel, _slip, loadN) => ({ loadN, pullN: a * loadN, torqueNm: 0, sinkageM: 0, deflectionM: 0, entryRad: 0.1 }),
  beliefs: [{ mean: 0.3, sd: 10 }, { mean: 1, sd: 0.2 }], lower: [-5, -5], upper: [5, 5], starts: [[0.3, 1]],
};
const template = madeWheelRuns({ seed: 1, loads: [50], slips: [0.2] })[0] as WheelObservation;
const random = seededRandom(9);
const [beds, each] = [30, 3];
const deviations = Array.from({ length: beds }, () => 0.02 * random.normal());
const values = Array.from({ length: beds * each }, (_, i) => 0.3 + (deviations[i % beds] as number) + 0.004 * random.normal());
const runs = (bedOf: (i: number) => string | null): WheelObservation[] => values.map((value, i) => ({ ...template, run: `R${i}`, bed: bedOf(i), measured: { pull: { ...template.measured.pull as NonNullable<WheelObservation["measured"]["pull"]>, value, budget: [{ cause: `noise ${i}`, effect: 0.002, sharedBy: null, degreesOfFreedom: Infinity }] } } }));
const seeds = Array.from({ length: 1000 }, (_, i) => i + 1);
const spread = (replicates: readonly (readonly number[])[], j: number): number => standardDeviation(replicates.map((replicate) => replicate[j] as number));

describe("thirty beds of three runs", () => {
  const fit = wheelSoilFit(runs((i) => `B${i % beds}`), level);
  const replicates = wheelBootstrap(fit, level, seeds);
  const bedMeans = Array.from({ length: beds }, (_, b) => [0, 1, 2].reduce((sum, k) => sum + (values[b + k * beds] as number), 0) / each);

  test("whole beds are drawn: the spread is that of a mean of thirty", () => {
    const sd = standardDeviation(bedMeans) * Math.sqrt((beds - 1) / beds);
    agrees(spread(replicates, 0), { expected: sd / Math.sqrt(beds), relative: 0.08, source: "bootstrap of a mean: s/√n with n in the divisor, by hand; 1000 replicates know it to 2 %" });
  });

  test("single runs, where no bed is named, would claim more", () => {
    const loose = wheelSoilFit(runs(() => null), level);
    agrees(spread(wheelBootstrap(loose, level, seeds), 0), { expected: standardDeviation(values) / Math.sqrt(beds * each), relative: 0.08, source: "bootstrap of a mean of 90, by hand" });
  });

  test("what only belief carries spreads as the belief", () => {
    agrees(spread(replicates, 1), { expected: 0.2, relative: 0.08, source: "the belief's own standard deviation; 1000 replicates know it to 2 %" });
  });

  test("a seed is a replicate, wherever it is drawn", () => expect(wheelBootstrap(fit, level, [7])[0]).toEqual(replicates[6]));

  test("without an answer, no replicate", () => {
    expect(wheelBootstrap(fit, { ...level, model: () => ({ reason: "never" }) }, [1, 2])).toEqual([]);
  });
});
