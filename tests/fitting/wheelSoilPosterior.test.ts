import { describe, expect, test } from "vitest";
import { posteriorChain } from "../../src/fitting/wheelSoilChain.ts";
import { joinChains, thinnedDraws } from "../../src/fitting/wheelSoilPosterior.ts";
import { wheelSoilFit } from "../../src/fitting/wheelSoilFit.ts";
import type { WheelModelToFit } from "../../src/fitting/wheelSoilFit.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { madeWheelRuns } from "../helpers/madeWheelRuns.ts";
import { agrees } from "../helpers/agrees.ts";

/** A model whose posterior is known: pull = a, torque = a + b, sinkage not measured. */
const straight: WheelModelToFit = {
  model: ([a = 0, b = 0], wheel, _slip, loadN) => ({ loadN, pullN: a * loadN, torqueNm: (a + b) * loadN * (wheel.rimM + wheel.lugHeightM), sinkageM: 0.01, deflectionM: 0, entryRad: 0.1 }),
  beliefs: [{ mean: 0, sd: 1 }, { mean: 0, sd: 1 }],
  lower: [-5, -5],
  upper: [5, 5],
  starts: [[0, 0]],
};
const runs = madeWheelRuns({ seed: 8, loads: [50], slips: Array.from({ length: 40 }, () => 0.3), noise: { pull: 0.02, torque: 0.02, sinkage: 1 } }).map((run, i) => ({ ...run, run: `${run.run} ${i}`, measured: { pull: run.measured.pull!, torque: run.measured.torque! } }));

describe("a straight model, of which the answer is known", () => {
  const fit = wheelSoilFit(runs, straight);
  const posterior = joinChains(fit, straight, [1, 2, 3, 4].map((seed) => posteriorChain(fit, straight, seed, 800)));
  const column = (j: number): number[] => posterior.chains.flatMap(({ draws }) => draws.map((draw) => draw[j] as number));
  const average = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

  test("chains agree", () => {
    expect(posterior.converged, posterior.sentence).toBe(true);
    expect(posterior.sentence).toMatch(/^4 chains of 800 draws: greatest R̂ 1\.00\d, at least \d+ effective draws\.$/);
  });

  test("mean and spread are those of forty measurements of 0.02 each", () => {
    const pull = average(runs.map((run) => run.measured.pull.value));
    const draws = column(0);
    const middle = average(draws);
    agrees(middle, { expected: pull, within: 5e-4, source: "mean of the measured pulls: the belief is too wide to matter" });
    const sd = Math.sqrt(average(draws.map((value) => (value - middle) ** 2)));
    agrees(sd, { expected: 0.02 / Math.sqrt(40), relative: 0.25, source: "u/√n by hand; what the model misses is sampled too and adds a little" });
  });

  test("the runs fall where replicates of them fall", () => {
    expect(posterior.insideReplicates).toBeGreaterThan(0.88);
    expect(posterior.insideReplicates).toBeLessThanOrEqual(1);
  });

  test("thinned draws carry what the runs share, and stay inside the bounds", () => {
    const shared = { ...fit, covariance: fit.ownCovariance.map((row, i) => row.map((value, j) => value + (i === 0 && j === 0 ? 0.2 ** 2 : 0))) };
    const spread = (bounds: WheelModelToFit): number[] => {
      const values = thinnedDraws(shared, bounds, posterior.chains, 2000).map((draw) => draw[0] as number);
      return [average(values), Math.sqrt(average(values.map((value) => (value - average(values)) ** 2))), Math.min(...values)];
    };
    const [middle = 0, sd = 0] = spread(straight);
    agrees(sd, { expected: Math.hypot(0.2, 0.02 / Math.sqrt(40)), relative: 0.05, source: "root of the sum of squares by hand; 2000 draws know a spread to 1/√4000" });
    expect(thinnedDraws(fit, straight, posterior.chains, 7)).toHaveLength(7);
    expect(spread({ ...straight, lower: [middle - 0.1, -5] })[2]).toBeGreaterThanOrEqual(middle - 0.1);
  });

  test("same seed, same draws; short chains are said not to have settled", () => {
    expect(posteriorChain(fit, straight, 1, 20)).toEqual(posteriorChain(fit, straight, 1, 20));
    expect(joinChains(fit, straight, [1, 2].map((seed) => posteriorChain(fit, straight, seed, 20))).sentence).toContain("they have not settled");
  });
});

test("what a bed deviates by is counted once a bed, however many runs it saw", () => {
  const beds = [0.05, -0.03, 0.02, -0.06, 0.04, -0.01, 0.03, -0.04];
  const several = runs.map((run, i) => {
    const pull = run.measured.pull!;
    return { ...run, bed: `B${i % beds.length}`, measured: { pull: { ...pull, value: pull.value + (beds[i % beds.length] as number) } } };
  });
  const fit = wheelSoilFit(several, straight);
  const draws = [1, 2].flatMap((seed) => posteriorChain(fit, straight, seed, 600).draws);
  const spread = (j: number): number => {
    const values = draws.map((draw) => draw[j] as number);
    const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
    return Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / values.length);
  };
  const between = Math.sqrt(beds.reduce((sum, value) => sum + value ** 2, 0) / (beds.length - 1));
  agrees(spread(0), { expected: Math.hypot(between, 0.02 / Math.sqrt(5)) / Math.sqrt(beds.length), relative: 0.35, source: "scatter of eight bed means over √8 by hand; the scatter itself is known to 1/√14 and believed smaller" });
  const misses = draws.map((draw) => Math.exp(draw[2] as number)).sort((a, b) => a - b);
  expect(misses[Math.floor(misses.length / 2)]).toBeGreaterThan(0.7 * between);
});

test.each([[0.002, 3], [0.004, 6]])("a tail that quadratics cannot follow holds no chain: pull levels off %d above what was measured", (above, seed) => {
  const knee = runs.reduce((sum, run) => sum + run.measured.pull.value, 0) / runs.length + above;
  const bent: WheelModelToFit = {
    ...straight,
    model: ([a = 0, b = 0], ...where) => straight.model([a < knee ? a : knee + 0.03 * (a - knee), b], ...where),
  };
  const { draws } = posteriorChain(wheelSoilFit(runs, bent), bent, seed, 300);
  let [stay, longest] = [0, 0];
  draws.forEach((draw, i) => {
    stay = draw[0] === draws[i - 1]?.[0] ? stay + 1 : 0;
    longest = Math.max(longest, stay);
  });
  expect(longest).toBeLessThan(40); // by walks through the likeness alone these two stand still for over a hundred
});

test("three wheels leave open what wheels deviate by: constants and misfit fall together as the posterior on a grid has it", () => {
  const wheels = 3;
  const each = 4;
  const random = seededRandom(6);
  const offsets = [0.03, -0.02, -0.012];
  const template = madeWheelRuns({ seed: 1, loads: [50], slips: [0.3] })[0]!;
  const own = 1e-3;
  const pulls = Array.from({ length: wheels * each }, (_, i) => 0.25 + offsets[i % wheels]! + 0.008 * random.normal());
  const some = pulls.map((value, i) => ({ ...template, run: `R${i}`, bed: null, wheel: { ...template.wheel, id: `W${i % wheels}` }, measured: { pull: { ...template.measured.pull!, value, standardUncertainty: own, budget: [{ cause: `noise ${i}`, effect: own, sharedBy: null, degreesOfFreedom: Infinity }] } } }));
  const one: WheelModelToFit = { model: straight.model, beliefs: [{ mean: 0, sd: 1 }, { mean: 0, sd: 1 }], lower: [-5, -5], upper: [5, 5], starts: [[0.25, 0]] };
  const fit = wheelSoilFit(some, one);
  const draws = [1, 2].flatMap((seed) => posteriorChain(fit, one, seed, 4000).draws);
  const average = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const spread = (values: readonly number[]): number => Math.sqrt(average(values.map((value) => (value - average(values)) ** 2)));

  // balanced groups: squares within and between them are all that the likelihood knows, a is integrated over
  const means = offsets.map((_, w) => average(pulls.filter((__, i) => i % wheels === w)));
  const within = pulls.reduce((sum, value, i) => sum + (value - means[i % wheels]!) ** 2, 0);
  const between = means.reduce((sum, value) => sum + (value - average(means)) ** 2, 0);
  const cells: { weight: number; whole: number; variance: number }[] = [];
  for (let lnDelta = -7; lnDelta < -2; lnDelta += 0.05) for (let lnSigma = -10; lnSigma < 0; lnSigma += 0.05) {
    const single = own ** 2 + Math.exp(2 * lnDelta);
    const group = Math.exp(2 * lnSigma) + single / each;
    const log = -0.5 * (wheels * (each - 1) * Math.log(single) + within / single + (wheels - 1) * Math.log(group) + between / group) - 0.5 * (((lnDelta - Math.log(0.015)) / 1.1) ** 2 + ((lnSigma - Math.log(0.005)) / 1.1) ** 2);
    cells.push({ weight: Math.exp(log - 60), whole: 0.5 * Math.log(Math.exp(2 * lnDelta) + Math.exp(2 * lnSigma)), variance: group / wheels });
  }
  const total = cells.reduce((sum, { weight }) => sum + weight, 0);
  const expected = (of: (cell: (typeof cells)[number]) => number): number => cells.reduce((sum, cell) => sum + cell.weight * of(cell), 0) / total;
  const whole = draws.map((draw) => draw[2]!);
  const source = "posterior of two variances of balanced groups summed on a grid, a integrated by hand; 8000 draws";
  agrees(average(whole), { expected: expected((cell) => cell.whole), within: 0.02, source });
  agrees(spread(whole), { expected: Math.sqrt(expected((cell) => cell.whole ** 2) - expected((cell) => cell.whole) ** 2), within: 0.02, source });
  agrees(spread(draws.map((draw) => draw[0]!)), { expected: Math.sqrt(expected((cell) => cell.variance)), relative: 0.12, source });
});
