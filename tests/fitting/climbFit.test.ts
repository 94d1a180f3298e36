import { expect, test } from "vitest";
import { climbCurvesFrom } from "../../src/fitting/climbFit.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { plan, rig } from "../helpers/pressRun.ts";
import { runResult } from "../helpers/runResult.ts";
import { wheel } from "../processing/recordings.ts";

const h50 = 0.045;
const width = 0.005;

function trial(index: number, heightM: number, climbed: boolean, rest: { friction?: number; wheel?: string; setLoadN?: number } = {}): RunResult {
  return runResult(plan("obstacle", { id: `O${index}`, wheel: rest.wheel ?? "W1", setLoadN: rest.setLoadN ?? 60, obstacle: { heightM, edge: "sharp", friction: rest.friction ?? null, climbed } }), { climbed: { value: climbed ? 1 : 0, unit: "1", rows: [] } });
}

function day(seed: number, n = 30): RunResult[] {
  const random = seededRandom(seed);
  return Array.from({ length: n }, (_, i) => {
    const heightM = 0.03 + 0.005 * (i % 7);
    return trial(i, heightM, random.uniform() < 1 / (1 + Math.exp((heightM - h50) / width)), { friction: 0.7 });
  });
}

test("the heights for 50 % and 90 % hold the truth inside their intervals, and grow apart as the chance asks", () => {
  let held = 0;
  for (let seed = 1; seed <= 20; seed++) {
    const [curve] = climbCurvesFrom(day(seed), [wheel], rig());
    const [half, ninety] = curve?.heights ?? [];
    if (half === undefined || ninety === undefined || half.estimate.standardUncertainty === null) continue;
    expect(ninety.estimate.value).toBeLessThan(half.estimate.value);
    if ((half.low ?? 0) <= h50 && h50 <= (half.high ?? 1)) held++;
  }
  expect(held).toBeGreaterThanOrEqual(17);
});

test("the constants of the Fit give the same heights, and their covariance belongs to them", () => {
  const [curve] = climbCurvesFrom(day(3), [wheel], rig());
  const [half, s] = curve?.fit.parameters.map((parameter) => parameter.estimate) ?? [];
  expect(curve?.heights[0]?.estimate.value).toBeCloseTo(half?.value ?? 0, 12);
  expect(curve?.heights[1]?.estimate.value).toBeCloseTo((half?.value ?? 0) - (s?.value ?? 0) * Math.log(9), 12);
  expect(curve?.fit.covariance[0]?.[0]).toBeCloseTo((half?.standardUncertainty ?? 0) ** 2, 12);
  expect(curve?.fit.covariance[1]?.[1]).toBeCloseTo((s?.standardUncertainty ?? 0) ** 2, 12);
  expect(curve?.band?.value[0]).toBeGreaterThan(0.9);
});

test("statics of a lone wheel stands beside it", () => {
  const [curve] = climbCurvesFrom(day(3), [wheel], rig());
  const h = curve?.heights[0]?.estimate.value ?? 0;
  expect(curve?.frictionAtHalf.value).toBeCloseTo(Math.sqrt(0.2 * h - h ** 2) / (0.1 - h), 9);
  expect(curve?.heightByFriction.value).toBeCloseTo(0.1 * (1 - 1 / Math.sqrt(1.49)), 9);
  const [bare] = climbCurvesFrom([trial(1, 0.03, true), trial(2, 0.05, false)], [wheel], rig());
  expect(bare?.heightByFriction.method).toContain("edge friction");
});

test("trials that one height splits, that all went alike, or that are too few give no curve and say what they bracket", () => {
  const split = climbCurvesFrom([0.03, 0.035, 0.04].map((h, i) => trial(i, h, true)).concat([0.05, 0.055].map((h, i) => trial(9 + i, h, false))), [wheel], rig())[0];
  expect(split?.fit.verdict).toBe("undetermined");
  expect(split?.fit.sentence).toContain("between 40.0 mm and 50.0 mm");
  expect(split?.heights[0]?.estimate.standardUncertainty).toBeNull();
  const alike = climbCurvesFrom([0.03, 0.04].map((h, i) => trial(i, h, true)), [wheel], rig())[0];
  expect(alike?.fit.sentence).toContain("Try higher obstacles");
  expect(climbCurvesFrom([trial(1, 0.03, true)], [wheel], rig())[0]?.fit.sentence).toContain("1 usable trial;");
});

test("success that rises with height is no climbing limit; too few trials show no bound", () => {
  const up = [0.03, 0.04, 0.05, 0.06, 0.045, 0.035].map((h, i) => trial(i, h, [false, true, true, true, false, false][i] as boolean));
  const swapped = [...up, trial(8, 0.052, false), trial(9, 0.033, true)];
  expect(climbCurvesFrom(swapped, [wheel], rig())[0]?.fit.sentence).toContain("Higher obstacles");
  const few = [trial(1, 0.03, true), trial(2, 0.04, false), trial(3, 0.05, true), trial(4, 0.06, false)];
  const curve = climbCurvesFrom(few, [wheel], rig())[0];
  expect(curve?.fit.verdict).toBe("determined");
  expect(curve?.heights[1]?.estimate.standardUncertainty).toBeNull();
  expect(curve?.fit.findings.map((found) => found.code)).toContain("few-trials");
});

test("wheels are kept apart, outcomes that are open or runs that do not count are named, mixed loads are said", () => {
  const open = { ...trial(40, 0.04, true), measures: [] };
  const curves = climbCurvesFrom([...day(1), trial(41, 0.04, true, { wheel: "W2" }), open, { ...trial(42, 0.04, true), verdict: "repeat" as const }, trial(43, 0.03, true, { setLoadN: 90 })], [wheel], rig());
  expect(curves.map((curve) => curve.wheel)).toEqual(["W1", "W2"]);
  expect(curves[0]?.fit.points.filter((point) => !point.kept).map((point) => point.reason)).toEqual(["not measured", "rejected"]);
  expect(curves[0]?.fit.findings.map((found) => found.code)).toContain("mixed-trials");
});
