import { expect, test } from "vitest";
import type { Estimate } from "../../src/core/estimate.ts";
import { pullCurvesFrom } from "../../src/fitting/pullCurves.ts";
import { curveAtSlip } from "../../src/fitting/readSlipCurve.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { plan, rig } from "../helpers/pressRun.ts";
import { ownRow, runResult } from "../helpers/runResult.ts";

const truth = (slip: number): number => 0.45 * (1 - Math.exp(-slip / 0.18)) - 0.12;

function traction(id: string, setSlip: number, rest: Partial<RunResult> = {}, measures: Record<string, number> = { slip: setSlip, pullCoefficient: truth(setSlip) }, setSpeedMps = 0.01): RunResult {
  const made = Object.fromEntries(Object.entries(measures).map(([name, value]) => [name, { value, unit: "1" as const, rows: [ownRow(0.005)] }]));
  return runResult(plan("traction", { id, wheel: "W1", setLoadN: 60, setSlip, setSpeedMps }), made, rest);
}

const sound = [0, 0.1, 0.2, 0.4, 0.6].map((slip) => traction(`s${slip}`, slip));

test("runs that do not count stand on the curve with their reasons", () => {
  const curves = pullCurvesFrom(
    [
      ...sound,
      traction("skid", -0.1, {}, { skid: 0.1, pullCoefficient: -0.3, grossTractionRatio: -0.15 }),
      traction("out", 0.3, { verdict: "excluded", reasons: ["wheel hit the wall"] }),
      traction("bad", 0.3, { verdict: "repeat", reasons: ["clipped"] }),
      traction("lost", 0.3, { verdict: "unread", reasons: ["no file"] }, {}),
      traction("poor", 0.3, {}, { slip: 0.3 }),
    ],
    rig({ reportPullAtSlip: [0.2, 0.9] }),
  );
  expect(curves.length).toBe(1);
  const points = curves[0]?.fit.points ?? [];
  expect(points.filter((point) => point.kept).length).toBe(5);
  const reason = (id: string) => points.find((point) => point.run === id);
  expect(reason("skid")?.reason).toContain("braked");
  expect(reason("skid")?.x).toBe(-0.1);
  expect(reason("out")?.reason).toBe("excluded by a person: wheel hit the wall");
  expect(reason("bad")?.reason).toBe("rejected: clipped");
  expect(reason("lost")).toMatchObject({ x: 0.3, y: Number.NaN, reason: "could not be read: no file" });
  expect(reason("poor")?.reason).toBe("no pull coefficient was measured");
  expect(curves[0]?.atSlip[0]?.estimate.value).toBeCloseTo(truth(0.2), 6);
  expect(curves[0]?.atSlip[1]?.estimate.standardUncertainty).toBeNull();
  expect(curves[0]?.band).not.toBeNull();
});

test("a curve per wheel and load", () => {
  const other = sound.map((run) => ({ ...run, plan: { ...run.plan, id: `${run.plan.id}b`, setLoadN: 90 } }));
  expect(pullCurvesFrom([...sound, ...other], rig()).map((curve) => [curve.wheel, curve.setLoadN])).toEqual([["W1", 60], ["W1", 90]]);
});

test("different speeds on one curve are said", () => {
  const codes = (runs: readonly RunResult[]) => pullCurvesFrom(runs, rig())[0]?.fit.findings.map((entry) => entry.code);
  expect(codes([...sound, traction("fast", 0.5, {}, { slip: 0.5, pullCoefficient: truth(0.5) }, 0.1)])).toContain("mixed-speeds");
  expect(codes(sound)).not.toContain("mixed-speeds");
});

test("passes never share a curve, and nothing stated is the first", () => {
  const second = sound.map((run) => ({ ...run, plan: { ...run.plan, id: `${run.plan.id}p2`, pass: 2 } }));
  const first = sound.map((run) => ({ ...run, plan: { ...run.plan, id: `${run.plan.id}p1`, pass: 1 } }));
  const curves = pullCurvesFrom([...sound, ...first, ...second], rig());
  expect(curves.map(({ pass, fit }) => [pass, fit.points.length])).toEqual([[1, 10], [2, 5]]);
});

test("braked runs stand on a curve of both signs, where the points without pull and without torque are read", () => {
  const odd = (rise: number, scale: number, level: number) => (slip: number): number => Math.sign(slip) * rise * (1 - Math.exp(-Math.abs(slip) / scale)) + level;
  const [pull, gross] = [odd(0.45, 0.18, -0.12), odd(0.5, 0.15, 0.03)];
  const at = (slip: number): RunResult => traction(`r${slip}`, slip, {}, slip < 0 ? { skid: -slip, pullCoefficient: pull(slip), grossTractionRatio: gross(slip) } : { slip, pullCoefficient: pull(slip), grossTractionRatio: gross(slip) });
  const [curve] = pullCurvesFrom([-0.3, -0.15, -0.05, 0.05, 0.1, 0.2, 0.4, 0.6].map(at), rig({ reportSlipAtPull: [0.1, 0.4] }));
  expect(curve?.bothSigns?.pull.fit.points.filter(({ kept }) => kept)).toHaveLength(8);
  expect(curve?.fit.points.filter(({ kept }) => kept)).toHaveLength(5);
  expect(curve?.towed.slip.value).toBeCloseTo(0.15 * Math.log(1 - 0.03 / 0.5), 5);
  expect(curve?.towed.pull.value).toBeCloseTo(pull(0.15 * Math.log(1 - 0.03 / 0.5)), 5);
  expect(curve?.selfPropelled.value).toBeCloseTo(-0.18 * Math.log(1 - 0.12 / 0.45), 5);
  expect(curve?.bestEfficiency.efficiency.value).toBeGreaterThan(0.2);
  expect(curve?.atPull[0]?.estimate.value).toBeCloseTo(-0.18 * Math.log(1 - 0.22 / 0.45), 5);
  expect(curve?.atPull[1]?.estimate.standardUncertainty).toBeNull();
  // slip moves the other way than skid: the slip's own uncertainty keeps its size
  expect(curve?.bothSigns?.pull.fit.points.find(({ run }) => run === "r-0.15")?.x).toBe(-0.15);
});

test("a wheel that was only driven has no curve of both signs", () => {
  expect(pullCurvesFrom(sound, rig())[0]?.bothSigns).toBeNull();
});

test("a reading carries what comparable forms read otherwise, and nothing of those that foretell worse", () => {
  // a fall so slight that the scatter leaves more than one form
  const random = seededRandom(4);
  const falling = (slip: number): number => 0.5 * (1 - Math.exp(-slip / 0.15)) - 0.12 - 0.02 * slip;
  const runs = [1, 2, 3].flatMap((k) => [0.02, 0.1, 0.2, 0.3, 0.45, 0.6].map((slip) => traction(`r${k}s${slip}`, slip, {}, { slip, pullCoefficient: falling(slip) + 0.004 * random.normal() })));
  const [curve] = pullCurvesFrom(runs, rig({ reportPullAtSlip: [0.25], reportSlipAtPull: [0.2] }));
  const comparable = (curve?.candidates ?? []).filter((one) => one.comparable);
  expect(comparable.length).toBeGreaterThan(1);
  const at = comparable.map((one) => curveAtSlip(one, 0.25).value);
  const row = (estimate: Estimate | undefined) => estimate?.budget.find(({ cause }) => cause.startsWith("form of the curve"));
  expect(row(curve?.atSlip[0]?.estimate)?.effect).toBeCloseTo((Math.max(...at) - Math.min(...at)) / Math.sqrt(12), 12);
  expect(row(curve?.atPull[0]?.estimate)?.effect).toBeGreaterThan(0);
});
