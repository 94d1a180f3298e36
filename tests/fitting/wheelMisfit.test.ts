import { describe, expect, test } from "vitest";
import type { WheelObservation } from "../../src/fitting/wheelObservations.ts";
import { firstMisfit, misfitChange, wholeMisfit } from "../../src/fitting/wheelMisfit.ts";
import type { MisfitRow } from "../../src/fitting/wheelMisfit.ts";
import { wheelSoilFit } from "../../src/fitting/wheelSoilFit.ts";
import type { WheelModelToFit } from "../../src/fitting/wheelSoilFit.ts";
import { forecastMisfit, widenedForWheel } from "../../src/fitting/forecastMisfit.ts";
import { misfitBlocks } from "../../src/fitting/misfitBlocks.ts";
import { normalCdf } from "../../src/numerics/distributions.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { madeWheel, madeWheelRuns } from "../helpers/madeWheelRuns.ts";
import { agrees } from "../helpers/agrees.ts";

/** A model whose answers are known by hand: pull/W is the one parameter. */
const level: WheelModelToFit = {
  model: ([a = 0], _wheel, _slip, loadN) => ({ loadN, pullN: a * loadN, torqueNm: 0, sinkageM: 0, deflectionM: 0, entryRad: 0.1 }),
  beliefs: [{ mean: 0.3, sd: 10 }], lower: [-5], upper: [5], starts: [[0.3]],
};
const template = madeWheelRuns({ seed: 1, loads: [50], slips: [0.2] })[0] as WheelObservation;
/** One pull a run, its own uncertainty next to nothing. */
const pulls = (values: readonly number[], place: (i: number) => { readonly bed: string | null; readonly wheel?: string }): WheelObservation[] => values.map((value, i) => {
  const { bed, wheel = "M1" } = place(i);
  const pull = { ...template.measured.pull, value, standardUncertainty: 1e-6, budget: [{ cause: `noise ${i}`, effect: 1e-6, sharedBy: null, degreesOfFreedom: Infinity }] };
  return { ...template, run: `R${i}`, bed, wheel: { ...madeWheel, id: wheel }, measured: { pull: pull as NonNullable<WheelObservation["measured"]["pull"]> } };
});

const random = seededRandom(3);
const [beds, runsPerBed] = [8, 6];
const deviations = Array.from({ length: beds }, () => 0.03 * random.normal());
const values = Array.from({ length: beds * runsPerBed }, (_, i) => 0.3 + (deviations[i % beds] as number) + 0.005 * random.normal());
const onBeds = pulls(values, (i) => ({ bed: `B${i % beds}` }));
const groupMeans = Array.from({ length: beds }, (_, b) => values.filter((_v, i) => i % beds === b).reduce((sum, value) => sum + value, 0) / runsPerBed);
const grand = groupMeans.reduce((sum, value) => sum + value, 0) / beds;
const betweenBeds = Math.sqrt(groupMeans.reduce((sum, value) => sum + (value - grand) ** 2, 0) / (beds - 1));

describe("runs on prepared beds", () => {
  const fit = wheelSoilFit(onBeds, level);

  test("the uncertainty is that of eight beds, not of 48 runs", () => {
    agrees(Math.sqrt(fit.covariance[0]?.[0] ?? 0), { expected: betweenBeds / Math.sqrt(beds), relative: 0.02, source: "balanced layout: standard error of the mean from the beds' means, by hand" });
    const strangers = wheelSoilFit(pulls(values, () => ({ bed: null })), level);
    expect(Math.sqrt(strangers.covariance[0]?.[0] ?? 0)).toBeLessThan(0.55 * Math.sqrt(fit.covariance[0]?.[0] ?? 0));
  });

  test("what beds differ by is told apart from what runs scatter by", () => {
    const within = Math.sqrt(values.reduce((sum, value, i) => sum + (value - (groupMeans[i % beds] as number)) ** 2, 0) / (beds * (runsPerBed - 1)));
    const source = "analysis of variance of a balanced layout, by hand";
    agrees(fit.misfit.single.pull ?? 0, { expected: within, relative: 0.02, source });
    agrees(fit.misfit.beds.pull, { expected: Math.sqrt(betweenBeds ** 2 - within ** 2 / runsPerBed), relative: 0.03, source });
    expect(fit.misfit.wheels.pull).toBe(0);
    agrees(fit.discrepancy.pull ?? 0, { expected: Math.hypot(fit.misfit.single.pull ?? 0, fit.misfit.beds.pull), relative: 1e-12, source: "root of the sum of squares" });
  });

  test("two beds tell no spread between beds", () => {
    expect(wheelSoilFit(pulls(values.slice(0, 12), (i) => ({ bed: `B${i % 2}` })), level).misfit.beds.pull).toBe(0);
  });
});

describe("wheels that differ", () => {
  const fit = wheelSoilFit(pulls(values.filter((_, i) => i % beds < 4), (i) => ({ bed: null, wheel: `M${i % 4}` })), level);
  const sigma = fit.misfit.wheels.pull;

  test("a wheel not tested is foretold with Student's factor for four wheels, a tested one without", () => {
    expect(sigma).toBeGreaterThan(0.005);
    agrees(forecastMisfit(fit, "pull", { ...madeWheel, id: "another" }), { expected: Math.hypot(fit.misfit.single.pull ?? 0, (sigma * 3.182446) / 1.959964), relative: 1e-6, source: "Student's t of three degrees of freedom, printed tables: 3.182" });
    agrees(forecastMisfit(fit, "pull", { ...madeWheel, id: "M1" }), { expected: Math.hypot(fit.misfit.single.pull ?? 0, sigma), relative: 1e-12, source: "root of the sum of squares" });
  });

  test("a kind of wheel that was not among the runs: the largest misfit of its quantity", () => {
    const flexible = { ...madeWheel, id: "M1", curve: { deflectionM: [0.01], loadN: [100] } };
    expect(forecastMisfit(fit, "pull", flexible)).toBe(fit.discrepancy.pull);
    expect(forecastMisfit(fit, "sinkage", madeWheel)).toBe(0);
  });
});

describe("robust", () => {
  const spoilt = onBeds.map((run, i) => (i !== 5 ? run : { ...run, measured: { pull: { ...run.measured.pull as NonNullable<typeof run.measured.pull>, value: 0.9 } } }));
  const plain = wheelSoilFit(spoilt, level);
  const robust = wheelSoilFit(spoilt, { ...level, robust: true });

  test("one wild run hardly counts, the others do", () => {
    const weights = robust.data.map(({ weight }) => weight);
    expect(weights[5]).toBeLessThan(0.01);
    expect(weights.filter((weight) => weight < 0.3)).toHaveLength(1);
    expect(plain.data.every(({ weight }) => weight === 1)).toBe(true);
  });

  test("the answer stays with the good runs", () => {
    const good = grand;
    expect(Math.abs((robust.fitted[0] as number) - good)).toBeLessThan(0.3 * Math.abs((plain.fitted[0] as number) - good));
    expect(robust.misfit.single.pull).toBeLessThan(0.1 * (plain.misfit.single.pull as number));
  });
});

const row = (bed: string | null, wheel: string): MisfitRow => ({ observation: { ...template, bed, wheel: { ...madeWheel, id: wheel } }, quantity: "pull", kind: "pull" });

test("groups are looked for where there are three and one of them has two runs", () => {
  expect(firstMisfit(["a", "b", "c", "c"].map((bed) => row(bed, "M1"))).beds.pull).toBeGreaterThan(0);
  expect(firstMisfit(["a", "b", "c"].map((bed) => row(bed, "M1"))).beds.pull).toBe(0);
  expect(firstMisfit(["a", "b", "b"].map((bed) => row(bed, "M1"))).beds.pull).toBe(0);
  expect(firstMisfit([null, null, null, null].map((bed) => row(bed, "M1"))).beds.pull).toBe(0);
  expect(firstMisfit(["x", "y", "z", "z"].map((wheel) => row(null, wheel))).wheels.pull).toBeGreaterThan(0);
});

test("change and sum of misfits", () => {
  const none = { pull: 0, torque: 0, sinkage: 0 };
  const a = { single: { pull: 0.03 }, beds: { ...none, pull: 0.04 }, wheels: none };
  expect(misfitChange(a, { ...a, single: { pull: 0.02 } })).toBeCloseTo(1 / 3, 12);
  expect(misfitChange(a, { ...a, wheels: { ...none, torque: 1e-5 } })).toBeCloseTo(0.01, 12);
  expect(wholeMisfit([row(null, "M1")], a)).toEqual({ pull: 0.05 });
});

test("drawn spreads of few wheels lean on the belief; with Student's factor the band holds the next wheel", () => {
  // Wheels whose deviations are seen exactly and whose mean the constants take up; the posterior of σ on a grid.
  const runs = pulls([0.3, 0.31, 0.29, 0.3, 0.31, 0.29], (i) => ({ bed: null, wheel: `M${i % 3}` }));
  const [block] = misfitBlocks(wheelSoilFit(runs, level));
  const belief = (log: number): number => block?.logPrior([Math.log(0.015), log]) ?? Number.NaN;
  const grid = Array.from({ length: 50 }, (_, k) => 5e-4 * Math.exp((k * Math.log(1e3)) / 49));
  const dice = seededRandom(11);
  const held = (wheels: number, sigma: number, widen: boolean): number => {
    const trials = 500;
    let inside = 0;
    for (let trial = 0; trial < trials; trial++) {
      const seen = Array.from({ length: wheels }, () => sigma * dice.normal());
      const middle = seen.reduce((a, b) => a + b) / wheels;
      const squares = seen.reduce((sum, value) => sum + (value - middle) ** 2, 0);
      const logs = grid.map((spread) => belief(Math.log(spread)) - (wheels - 1) * Math.log(spread) - squares / (2 * spread ** 2));
      const most = Math.max(...logs);
      const density = logs.map((log) => Math.exp(log - most));
      const off = Math.abs(sigma * dice.normal() - middle);
      const spreadOf = (drawn: number): number => (widen ? widenedForWheel(drawn, Math.sqrt(squares / (wheels - 1)), wheels) : drawn) * Math.sqrt(1 + 1 / wheels);
      const within = grid.reduce((sum, drawn, k) => sum + (density[k] as number) * (2 * normalCdf(off / spreadOf(drawn)) - 1), 0) / density.reduce((a, b) => a + b);
      if (within < 0.95) inside++;
    }
    return inside / trials;
  };
  for (const [wheels, sigma] of [[3, 0.05], [5, 0.005], [8, 0.02]] as const) {
    const share = held(wheels, sigma, true);
    expect(share, `${wheels} wheels, σ ${sigma}`).toBeGreaterThan(0.93);
    expect(share, `${wheels} wheels, σ ${sigma}`).toBeLessThan(0.99);
  }
  expect(held(3, 0.05, false)).toBeLessThan(0.88);
});
