import { expect, test } from "vitest";
import { combine, estimateFrom } from "../../src/core/estimate.ts";
import type { BudgetRow } from "../../src/core/estimate.ts";
import { pullAt, pullBand, pullSlipFit } from "../../src/fitting/pullSlipFit.ts";
import type { PullPoint } from "../../src/fitting/pullSlipFit.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { ownRow, sharedRow } from "../helpers/runResult.ts";

// the truth is written out here: the test may not lean on the model it checks
const truth = (slip: number): number => 0.45 * (1 - Math.exp(-slip / 0.18)) - 0.12;
const setSlips = [0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.6];

function point(run: string, slip: number, pull: number, own = 0.005, rows: readonly BudgetRow[] = [], setSlip: number | null = null): PullPoint {
  return { run, slip: estimateFrom(slip, "1", "", [ownRow(1e-4)]), pull: estimateFrom(pull, "1", "", [ownRow(own), ...rows]), setSlip };
}

/** Runs at the set slips, `repeats` of each, with scatter of each run's own uncertainty and between runs. */
function made(seed: number, repeats: number, own: number, between: number): PullPoint[] {
  const random = seededRandom(seed);
  return setSlips.flatMap((set) =>
    Array.from({ length: repeats }, (_, repeat) => {
      const slip = set + 0.005 * random.normal();
      return point(`s${set}r${repeat}`, slip, truth(slip) + own * random.normal() + between * random.normal(), own, [], set);
    }),
  );
}

test("noise-free points give back the constants", () => {
  const fit = pullSlipFit(setSlips.map((slip) => point(`s${slip}`, slip, truth(slip))), []);
  expect(fit.verdict).toBe("determined");
  const [a, b, c] = fit.parameters.map((parameter) => parameter.estimate.value) as [number, number, number];
  expect(a).toBeCloseTo(0.45, 8);
  expect(b).toBeCloseTo(0.18, 8);
  expect(c).toBeCloseTo(0.12, 8);
  expect(Math.max(...fit.residuals.map(Math.abs))).toBeLessThan(1e-8);
});

// 400 made campaigns with between-run scatter three times the stated uncertainty: the binomial sd of a 95 % coverage
// is 1.1 %, so 92.5…98.5 % is ± 2½ sd around 95.5, room for Welch–Satterthwaite's slight caution
test("95 % intervals of constants and of the pull at 20 % slip hold the truth as often as they say", () => {
  const held = { rise: 0, slipScale: 0, resistance: 0, at20: 0 };
  const trials = 400;
  for (let seed = 1; seed <= trials; seed++) {
    const fit = pullSlipFit(made(seed, 3, 0.004, 0.012), []);
    expect(fit.verdict).toBe("determined");
    const inside = (value: number, u: number | null, dof: number, real: number): number => (Math.abs(value - real) <= studentTQuantile(0.975, dof) * (u ?? Number.NaN) ? 1 : 0);
    for (const [index, [name, real]] of ([["rise", 0.45], ["slipScale", 0.18], ["resistance", 0.12]] as const).entries()) {
      const { value, standardUncertainty, degreesOfFreedom } = (fit.parameters[index] as (typeof fit.parameters)[number]).estimate;
      held[name] += inside(value, standardUncertainty, degreesOfFreedom, real);
    }
    const at = pullAt(fit, 0.2);
    held.at20 += inside(at.value, at.standardUncertainty, at.degreesOfFreedom, truth(0.2));
  }
  for (const [name, count] of Object.entries(held)) {
    expect(count / trials, name).toBeGreaterThanOrEqual(0.925);
    expect(count / trials, name).toBeLessThanOrEqual(0.985);
  }
}, 60_000);

test("scatter beyond the stated uncertainty is found, said and carried", () => {
  const quiet = pullSlipFit(made(7, 3, 0.01, 0), []);
  const loud = pullSlipFit(made(7, 3, 0.004, 0.03), []);
  const said = loud.findings.find((entry) => entry.code === "scatter-between-runs");
  expect(said?.measured).toBeGreaterThan(0.02);
  expect(said?.measured).toBeLessThan(0.04);
  expect(pullAt(loud, 0.2).standardUncertainty).toBeGreaterThan(2 * (pullAt(quiet, 0.2).standardUncertainty ?? 0));
});

test("a shared calibration shifts the curve and does not average away", () => {
  const many = Array.from({ length: 20 }, () => setSlips).flat();
  const rows = [sharedRow(0.02, "calibration A")];
  const fit = pullSlipFit(many.map((slip, index) => point(`r${index}`, slip, truth(slip), 0.005, rows)), []);
  // all points up by 0.02 is C down by 0.02, and nothing else
  const [a, , c] = fit.parameters.map((parameter) => parameter.estimate);
  expect(c?.budget.find((row) => row.cause === "calibration A")?.effect).toBeCloseTo(-0.02, 9);
  expect(Math.abs(a?.budget.find((row) => row.cause === "calibration A")?.effect ?? 0)).toBeLessThan(1e-9);
  expect(pullAt(fit, 0.2).standardUncertainty).toBeGreaterThan(0.02);
  expect(pullAt(fit, 0.2).standardUncertainty).toBeLessThan(0.021);
});

test("between two curves the scatter of each counts, and only what they share cancels", () => {
  const shared = [sharedRow(0.02, "calibration A")];
  const curve = (wheel: string) => pullSlipFit(setSlips.map((slip, i) => point(`${wheel}${i}`, slip, truth(slip) + (i % 2 === 0 ? 0.01 : -0.01), 0.005, shared)), []);
  const [one, other] = [pullAt(curve("a"), 0.2), pullAt(curve("b"), 0.2)];
  const own = Math.sqrt((one.standardUncertainty ?? 0) ** 2 - 0.02 ** 2);
  expect(own).toBeGreaterThan(0.003);
  const difference = combine([one, other], (a = 0, b = 0) => a - b, "1", "difference");
  expect(difference.standardUncertainty).toBeCloseTo(Math.SQRT2 * own, 6);
});

test("a cause shared by slip and pull is added with its signs", () => {
  // slip up by e moves a point along the curve: with the pull up by slope · e as well the curve stays where it is
  const slope = (slip: number): number => (0.45 / 0.18) * Math.exp(-slip / 0.18);
  const points = setSlips.map((slip) => ({
    run: `s${slip}`,
    slip: estimateFrom(slip, "1", "", [sharedRow(0.01, "radius")]),
    pull: estimateFrom(truth(slip), "1", "", [ownRow(0.005), sharedRow(0.01 * slope(slip), "radius")]),
    setSlip: slip,
  }));
  for (const { estimate } of pullSlipFit(points, []).parameters) {
    expect(Math.abs(estimate.budget.find((row) => row.cause === "radius")?.effect ?? 0)).toBeLessThan(1e-6);
  }
});

test("three slips give no curve, however many runs", () => {
  const fit = pullSlipFit([0.1, 0.1, 0.1, 0.2, 0.2, 0.4].map((slip, index) => point(`r${index}`, slip, truth(slip), 0.005, [], slip)), []);
  expect(fit.verdict).toBe("undetermined");
  expect(fit.sentence).toContain("3 different driven slips");
  expect(pullAt(fit, 0.2).standardUncertainty).toBeNull();
  expect(pullBand(fit)).toBeNull();
});

test("points on a straight line do not show where the pull levels off", () => {
  const random = seededRandom(3);
  const fit = pullSlipFit([0, 0.02, 0.04, 0.06, 0.08].map((slip) => point(`s${slip}`, slip, slip + 0.005 * random.normal())), []);
  expect(fit.verdict).not.toBe("determined");
  expect(pullBand(fit)).toBeNull();
});

test("beyond the slips measured the curve is not read", () => {
  const fit = pullSlipFit(setSlips.map((slip) => point(`s${slip}`, slip, truth(slip))), []);
  expect(pullAt(fit, 0.65).standardUncertainty).toBeNull();
  expect(pullAt(fit, 0.65).value).toBeNaN();
  expect(pullAt(fit, 0.65).method).toContain("outside the slips measured");
  expect(pullAt(fit, 0.605).method).toContain("0.0050 beyond");
});

test("the band goes from the least to the greatest slip and holds its own curve", () => {
  const band = pullBand(pullSlipFit(made(2, 3, 0.004, 0.012), []));
  expect(band?.x.length).toBe(61);
  band?.value.forEach((value, i) => {
    expect(band.low[i]).toBeLessThan(value);
    expect(band.high[i]).toBeGreaterThan(value);
  });
});
