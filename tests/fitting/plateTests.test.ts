import { expect, test } from "vitest";
import { estimateFrom } from "../../src/core/estimate.ts";
import type { Fit } from "../../src/core/fit.ts";
import { plateGroups, plateTestsFrom, plateWidth, sharedShifts } from "../../src/fitting/plateTests.ts";
import { plateTestsOf } from "../helpers/plateTests.ts";
import { plan, rig } from "../helpers/pressRun.ts";
import { ownRow, runResult, sharedRow } from "../helpers/runResult.ts";

const round = { shape: "circle", widthM: 0.1, lengthM: 0.1 } as const;
const flat = { shape: "rectangle", widthM: 0.1, lengthM: 0.05 } as const;
const steady = { n: 0.8, kc: 10e3, kphi: 2e6, sdExponent: 0, sdLogPressure: 0 };

test("b is the smaller side, or what the rig description says of circles", () => {
  expect(plateWidth(flat, rig())).toBe(0.05);
  expect(plateWidth(round, rig({ soil: { circularPlateWidth: "radius" } }))).toBe(0.05);
  expect(plateWidth(round, rig({ soil: { circularPlateWidth: "diameter" } }))).toBe(0.1);
  expect(plateWidth(round, rig())).toBeNull();
});

test("runs that do not count are refused with their reason", () => {
  const points = [0.01, 0.02, 0.03].map((x) => ({ run: "a", x, y: 1e6 * x, yUncertainty: null, kept: true, reason: "" }));
  const fit: Fit = { model: "", formula: "", parameters: [], covariance: [], points, residuals: [], degreesOfFreedom: 1, verdict: "determined", sentence: "", findings: [] };
  const measures = { sinkageExponent: { value: 1, unit: "1" as const, rows: [ownRow(0.01)] }, plateStiffness: { value: 1e6, unit: "N/m^(n+2)" as const, rows: [ownRow(1e4)] } };
  const made = (id: string, plate: typeof round | typeof flat, rest = {}) => runResult(plan("plate", { id, plate }), measures, { fits: [fit], ...rest });
  const { tests, refused } = plateTestsFrom([made("a", flat), made("b", flat, { verdict: "repeat", reasons: ["clipped"] }), made("c", round), made("d", flat, { measures: [] }), runResult(plan("drop", { id: "e" }), {})], rig());
  expect(tests.map((one) => one.run)).toEqual(["a"]);
  expect(refused.map((point) => [point.run, point.reason.slice(0, 40)])).toEqual([["b", "rejected: clipped"], ["c", "the rig description does not say whether"], ["d", "no plate curve was measured"]]);
});

test("groups by rising width; all points of a width make its curve", () => {
  const groups = plateGroups([...plateTestsOf(steady, [0.1], 2, 1), ...plateTestsOf(steady, [0.05], 1, 1)]);
  expect(groups.map((group) => [group.widthM, group.tests.length, group.points.length])).toEqual([[0.05, 1, 60], [0.1, 2, 120]]);
  expect(groups[1]?.exponent).toBeCloseTo(0.8, 9);
  expect(Math.exp(groups[1]?.logStiffness ?? 0)).toBeCloseTo(2.1e6, 1);
});

test("a shared gain shifts ln p of every width alike and no exponent", () => {
  const shifts = sharedShifts(plateGroups(plateTestsOf(steady, [0.05, 0.1], 3, 1, [sharedRow(0.01, "calibration LC")])));
  expect(shifts.length).toBe(1);
  shifts[0]?.shifts.forEach((shift, i) => expect(shift).toBeCloseTo(i % 2 === 0 ? 0 : 0.01, 12));
});

test("a shared shift of n and k moves ln p at the centre by both", () => {
  const tests = plateTestsOf(steady, [0.05], 2, 1).map((one) => ({ ...one, exponent: estimateFrom(one.exponent.value, "1", "", [sharedRow(0.01, "shape")]), stiffness: estimateFrom(one.stiffness.value, "N/m^(n+2)", "", [sharedRow(0.02 * one.stiffness.value, "shape")]) }));
  const groups = plateGroups(tests);
  const [dn, dq] = sharedShifts(groups)[0]?.shifts ?? [];
  expect(dn).toBeCloseTo(0.01, 12);
  expect(dq).toBeCloseTo(0.02 + 0.01 * (groups[0]?.centre ?? 0), 12);
});
