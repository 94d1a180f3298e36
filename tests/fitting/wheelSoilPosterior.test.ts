import { describe, expect, test } from "vitest";
import { posteriorChain } from "../../src/fitting/wheelSoilChain.ts";
import { joinChains, thinnedDraws } from "../../src/fitting/wheelSoilPosterior.ts";
import { wheelSoilFit } from "../../src/fitting/wheelSoilFit.ts";
import type { WheelModelToFit } from "../../src/fitting/wheelSoilFit.ts";
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
