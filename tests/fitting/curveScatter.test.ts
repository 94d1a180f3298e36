import { describe, expect, test } from "vitest";
import { binomialBand } from "../../scripts/coverage/tally.ts";
import { expandedUncertainty } from "../../src/processing/expandedUncertainty.ts";
import { bedPlan, scatterSizes } from "../../src/fitting/curveScatter.ts";
import { curveAtSlip } from "../../src/fitting/readSlipCurve.ts";
import { scatterShare } from "../../src/fitting/scatterShare.ts";
import { slipCurveFit } from "../../src/fitting/slipCurveFit.ts";
import type { SlipPoint } from "../../src/fitting/slipCurveFit.ts";
import { slipShape } from "../../src/fitting/slipShapes.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { point, setSlips, truth } from "./slipPoints.ts";

const fitOf = (points: readonly SlipPoint[]) => slipCurveFit(points, [], slipShape("saturating"), "P/W");
const on = (beds: readonly (string | null)[]): SlipPoint[] => beds.map((bed, i) => point(`R${i}`, i / 10, 0, 0.005, [], null, bed));

/** Seven slips on each bed, which lifts all of its runs alike. */
function shared(seed: number, beds: number, lift: number, names = true): SlipPoint[] {
  const random = seededRandom(seed);
  return Array.from({ length: beds }, () => lift * random.normal()).flatMap((lifted, bed) => setSlips.map((slip) => point(`b${bed}s${slip}`, slip, truth(slip) + lifted + 0.004 * random.normal(), 0.004, [], slip, names ? `B${bed}` : null)));
}

describe("whether beds are told apart from runs", () => {
  test.each([
    ["three beds with two runs each", ["a", "a", "b", "b", "c", "c"], true],
    ["a bed for every run", ["a", "b", "c", "d", "e", "f"], false],
    ["two beds", ["a", "a", "a", "b", "b", "b"], false],
    ["two pairs among beds of one run", ["a", "a", "b", "b", "c", "d"], false],
    ["no bed is named", [null, null, null, null, null, null], false],
  ])("%s", (_, beds, apart) => expect(bedPlan(on(beds)).apart).toBe(apart));

  test("is said in words", () => {
    const scatter = { run: 0.004, bed: 0, tilt: 0.01 };
    expect(scatterShare(on(["a", "a", "b", "b", "c", "c"]), { ...scatter, bed: 0.02 }).sentence).toContain("the 3 beds, each once for all its runs, by 0.020 and by 0.010 at 50 % slip");
    expect(scatterShare(on(["a", "b", "c", "d"]), scatter)).toMatchObject({ bed: null, beds: 4, runs: 4, sentence: expect.stringContaining("not told apart from runs") });
    expect(scatterShare(on(["a", "a", "b", "b"]), scatter).sentence).toContain("what runs of one bed share is not inside");
    expect(scatterShare(on([null, null]), scatter).sentence).toContain("names no beds");
  });
});

test("runs on two beds: a finding says that what they share is not in the interval", () => {
  const found = fitOf(shared(1, 2, 0.02)).findings.find(({ code }) => code === "beds-not-apart");
  expect(found).toMatchObject({ severity: "note", measured: 2 });
  expect(fitOf(shared(1, 5, 0.02)).findings.some(({ code }) => code === "beds-not-apart")).toBe(false);
});

test("what beds deviate by is found, has a row of its own in the budget, and few degrees of freedom", () => {
  const fit = fitOf(shared(3, 12, 0.02));
  expect(fit.scatter?.bed).toBeGreaterThan(0.01);
  expect(fit.scatter?.bed).toBeLessThan(0.035);
  const at = curveAtSlip({ shape: "saturating", knots: [], fit }, 0.2);
  const row = at.budget.find(({ cause }) => cause.startsWith("scatter from bed to bed, "));
  expect(row?.effect).toBeGreaterThan(0.9 * (at.standardUncertainty as number));
  // a lift of twelve beds, each met at all slips: eleven are over
  expect(row?.degreesOfFreedom).toBeGreaterThan(8);
  expect(row?.degreesOfFreedom).toBeLessThan(12.5);
});

test("more runs on the same beds do not narrow what only more beds could", () => {
  const few = fitOf(shared(3, 6, 0.03));
  const many = fitOf(shared(3, 6, 0.03).flatMap((one) => [one, { ...one, run: `${one.run} again` }]));
  const [u, v] = [few, many].map((fit) => curveAtSlip({ shape: "saturating", knots: [], fit }, 0.2).standardUncertainty as number) as [number, number];
  expect(v / u).toBeGreaterThan(0.9);
});

// 40 made campaigns; beds that lift all their runs by five times a run's own uncertainty
test("the interval holds the truth where runs share beds; without the beds' names it does not", () => {
  const trials = 40;
  const inside = (named: boolean): number => Array.from({ length: trials }, (_, i) => {
    const at = curveAtSlip({ shape: "saturating", knots: [], fit: fitOf(shared(i + 1, 4, 0.02, named)) }, 0.2);
    return Math.abs(at.value - truth(0.2)) <= (expandedUncertainty(at)?.half ?? Number.NaN) ? 1 : 0;
  }).reduce((sum: number, one) => sum + one, 0);
  expect(inside(true)).toBeGreaterThanOrEqual(binomialBand(trials, 0.95, 0.005)[0]);
  expect(inside(false)).toBeLessThan(binomialBand(trials, 0.95, 0.0005)[0]);
});

test("scatter that grows with slip is told from scatter alike at every slip", () => {
  const random = seededRandom(11);
  const points = Array.from({ length: 12 }, () => setSlips).flat().map((slip, i) => point(`R${i}`, slip, truth(slip) + 0.05 * slip * random.normal() + 0.002 * random.normal(), 0.002, [], slip));
  const { scatter } = fitOf(points);
  expect(scatter?.tilt).toBeGreaterThan(0.02);
  expect(scatter?.tilt).toBeLessThan(0.04);
  expect(scatter?.run).toBeLessThan(0.004);
  const [first, last] = [0, 6].map((i) => scatterSizes(points, scatter ?? { run: 0, bed: 0, tilt: 0 })[i] as number) as [number, number];
  expect(last).toBeGreaterThan(5 * first);
});

describe("seven runs, the usual curve", () => {
  const seven = (seed: number, between: number): SlipPoint[] => {
    const random = seededRandom(seed);
    return setSlips.map((slip, i) => point(`R${i}`, slip, truth(slip) + 0.0012 * random.normal() + between * random.normal(), 0.0012, [], slip, `B${i}`));
  };

  test("have one scatter, known by the runs less the constants: no interval without a bound", () => {
    for (let seed = 1; seed <= 30; seed++) {
      const fit = fitOf(seven(seed, seed % 2 === 0 ? 0.005 : 0));
      if (fit.verdict !== "determined") continue;
      for (const slip of [0.2, 0.6]) {
        const at = curveAtSlip({ shape: "saturating", knots: [], fit }, slip);
        expect(at.degreesOfFreedom, `seed ${seed}`).toBeGreaterThan(3.9);
        expect(expandedUncertainty(at)?.half, `seed ${seed}`).toBeLessThan(0.1);
      }
    }
  });

  test("hold the truth at 20 % slip as often as they say, or nearly", () => {
    const trials = 60;
    const inside = Array.from({ length: trials }, (_, i) => {
      const at = curveAtSlip({ shape: "saturating", knots: [], fit: fitOf(seven(100 + i, 0.005)) }, 0.2);
      return Math.abs(at.value - truth(0.2)) <= (expandedUncertainty(at)?.half ?? Number.NaN) ? 1 : 0;
    }).reduce((sum: number, one) => sum + one, 0);
    expect(inside).toBeGreaterThanOrEqual(binomialBand(trials, 0.93, 0.005)[0]);
  });

  test("are told in words: which of the two scatters it is, so few do not show", () => {
    const points = on(["a", "b", "c", "d"]);
    const { run, tilt, sentence } = scatterShare(points, { run: 0, bed: 0, tilt: 0.01 });
    expect([run, tilt]).toEqual([0.01 * Math.SQRT1_2, 0.01]);
    expect(sentence).toContain("so few runs do not tell the two apart");
    // ½ + 1 at the greatest slip
    expect(scatterSizes(points, { run: 0, bed: 0, tilt: 0.01 })[3]).toBeCloseTo(0.01 * Math.sqrt(1.5), 12);
  });
});

test("runs that scatter as they say they do are taken at their word; a little more in one day of many is not shown", () => {
  const random = seededRandom(2);
  const days = Array.from({ length: 12 }, () => Array.from({ length: 3 }, () => setSlips).flat().map((slip, i) => point(`R${i}`, slip, truth(slip) + 0.004 * random.normal(), 0.004, [], slip)));
  expect(days.filter((points) => (fitOf(points).scatter?.run ?? 0) > 0).length).toBeLessThanOrEqual(4);
  const louder = days.map((points) => points.map((one) => ({ ...one, value: { ...one.value, budget: one.value.budget.map((row) => ({ ...row, effect: row.effect / 3 })) } })));
  expect(louder.filter((points) => (fitOf(points).scatter?.run ?? 0) > 0).length).toBeGreaterThanOrEqual(11);
});
