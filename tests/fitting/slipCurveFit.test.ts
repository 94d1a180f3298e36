import { expect, test } from "vitest";
import { combine, estimateFrom } from "../../src/core/estimate.ts";
import { curveAtSlip, curveBand } from "../../src/fitting/readSlipCurve.ts";
import { slipCurveFit, slipGroups } from "../../src/fitting/slipCurveFit.ts";
import type { SlipPoint } from "../../src/fitting/slipCurveFit.ts";
import { slipShape } from "../../src/fitting/slipShapes.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { sharedRow } from "../helpers/runResult.ts";
import { curveOf, exact, made, point, setSlips, truth } from "./slipPoints.ts";

const saturating = (points: readonly SlipPoint[]) => slipCurveFit(points, [], slipShape("saturating"), "P/W");
const pullAt = (fit: ReturnType<typeof saturating>, slip: number) => curveAtSlip({ shape: "saturating", knots: [], fit }, slip);

test("noise-free points give back the constants", () => {
  const fit = saturating(setSlips.map((slip) => point(`s${slip}`, slip, truth(slip))));
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
    const fit = saturating(made(seed, 3, 0.004, 0.012));
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
  const quiet = saturating(made(7, 3, 0.01, 0));
  const loud = saturating(made(7, 3, 0.004, 0.03));
  const said = loud.findings.find((entry) => entry.code === "scatter-between-runs");
  expect(said?.measured).toBeGreaterThan(0.02);
  expect(said?.measured).toBeLessThan(0.04);
  expect(pullAt(loud, 0.2).standardUncertainty).toBeGreaterThan(2 * (pullAt(quiet, 0.2).standardUncertainty ?? 0));
});

test("a shared calibration shifts the curve and does not average away", () => {
  const many = Array.from({ length: 20 }, () => setSlips).flat();
  const rows = [sharedRow(0.02, "calibration A")];
  const fit = saturating(many.map((slip, index) => point(`r${index}`, slip, truth(slip), 0.005, rows)));
  // all points up by 0.02 is C down by 0.02, and nothing else
  const [a, , c] = fit.parameters.map((parameter) => parameter.estimate);
  expect(c?.budget.find((row) => row.cause === "calibration A")?.effect).toBeCloseTo(-0.02, 9);
  expect(Math.abs(a?.budget.find((row) => row.cause === "calibration A")?.effect ?? 0)).toBeLessThan(1e-9);
  expect(pullAt(fit, 0.2).standardUncertainty).toBeGreaterThan(0.02);
  expect(pullAt(fit, 0.2).standardUncertainty).toBeLessThan(0.021);
});

test("between two curves the scatter of each counts, and only what they share cancels", () => {
  const shared = [sharedRow(0.02, "calibration A")];
  const curve = (wheel: string) => saturating(setSlips.map((slip, i) => point(`${wheel}${i}`, slip, truth(slip) + (i % 2 === 0 ? 0.01 : -0.01), 0.005, shared)));
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
    value: estimateFrom(truth(slip), "1", "", [{ ...sharedRow(0.005, "own"), sharedBy: null }, sharedRow(0.01 * slope(slip), "radius")]),
    setSlip: slip,
    bed: null,
  }));
  for (const { estimate } of saturating(points).parameters) {
    expect(Math.abs(estimate.budget.find((row) => row.cause === "radius")?.effect ?? 0)).toBeLessThan(1e-6);
  }
});

test("three slips give no curve, however many runs", () => {
  const fit = saturating([0.1, 0.1, 0.1, 0.2, 0.2, 0.4].map((slip, index) => point(`r${index}`, slip, truth(slip), 0.005, [], slip)));
  expect(fit.verdict).toBe("undetermined");
  expect(fit.sentence).toContain("3 different slips");
  expect(pullAt(fit, 0.2).standardUncertainty).toBeNull();
  expect(curveBand({ shape: "saturating", knots: [], fit })).toBeNull();
});

test("points on a straight line do not show where the pull levels off", () => {
  const random = seededRandom(3);
  const fit = saturating([0, 0.02, 0.04, 0.06, 0.08].map((slip) => point(`s${slip}`, slip, slip + 0.005 * random.normal())));
  expect(fit.verdict).not.toBe("determined");
  expect(curveBand({ shape: "saturating", knots: [], fit })).toBeNull();
});

test("a curve that falls again is followed by the form with a fall, its constants come back", () => {
  const fit = curveOf(exact((slip) => 0.6 * (1 - Math.exp(-slip / 0.1)) - 0.12 - 0.3 * slip), "saturatingFall").fit;
  expect(fit.verdict).toBe("determined");
  const expected = [0.6, 0.1, 0.12, 0.3];
  fit.parameters.forEach(({ estimate }, i) => expect(estimate.value).toBeCloseTo(expected[i] as number, 6));
});

test("driven and braked runs stand on one curve through zero slip", () => {
  const both = (slip: number): number => Math.sign(slip) * 0.45 * (1 - Math.exp(-Math.abs(slip) / 0.18)) - 0.12;
  const fit = curveOf(exact(both, [-0.4, -0.2, -0.1, ...setSlips])).fit;
  expect(fit.verdict).toBe("determined");
  [0.45, 0.18, 0.12].forEach((constant, i) => expect(fit.parameters[i]?.estimate.value).toBeCloseTo(constant, 6));
});

test("a form with as many constants as runs has none over to tell scatter by", () => {
  const fit = curveOf(exact(truth, [0, 0.1, 0.2, 0.4]), "saturatingFall").fit;
  expect(fit.verdict).toBe("undetermined");
  expect(fit.sentence).toContain("leave none over");
});

test("points group by set slip, else by nearness", () => {
  expect(slipGroups([point("b", 0.21, 0, 1, [], 0.2), point("a", 0.1, 0, 1, [], 0.1), point("c", 0.19, 0, 1, [], 0.2)]).map((group) => group.map(({ run }) => run))).toEqual([["a"], ["b", "c"]]);
  expect(slipGroups([point("b", 0.115, 0), point("a", 0.1, 0), point("c", 0.2, 0)]).map((group) => group.length)).toEqual([2, 1]);
});
