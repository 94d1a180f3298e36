import { expect, test } from "vitest";
import { estimateFrom } from "../../src/core/estimate.ts";
import { loadDamage } from "../../src/fitting/loadDamage.ts";
import { agrees } from "../helpers/agrees.ts";
import { sharedRow } from "../helpers/runResult.ts";
import { enduranceRun } from "./enduranceRuns.ts";

const measures = {
  distance: estimateFrom(1000, "m", "", [sharedRow(1, "draw-wire")]),
  verticalLoad: estimateFrom(60, "N", "", [sharedRow(0.6, "certificate 7"), { cause: "zero", effect: 3, sharedBy: null, degreesOfFreedom: Infinity }]),
};
const lifeLine = { range: 100, cycles: 1000, exponent: 5, cutOff: null };

test("damage by the linear sum, scaled to the mission; ranges know the gain's doubt and no zero's", () => {
  const found = loadDamage([enduranceRun("E1", measures, [[100, 10], [50, 32]]), enduranceRun("E2", measures, [[100, 9]])], { lifeLine, missionDistance: 20_000 });
  const source = "by hand: (10 + 32/2⁵ + 9)/1000, over 2 km of 20 km; 1 % of gain to the fifth power";
  agrees(found?.damage.value ?? Number.NaN, { expected: 0.02, relative: 1e-12, source });
  agrees(found?.damage.standardUncertainty ?? Number.NaN, { expected: 0.001, relative: 1e-9, source });
  agrees(found?.atMission.value ?? Number.NaN, { expected: 0.2, relative: 1e-12, source });
  agrees((found?.missionInterval?.high ?? Number.NaN) / 0.2, { expected: Math.exp(1.959964 * Math.hypot(0.05, 0.001)), relative: 1e-6, source: "by hand: 5 % of damage and 0.1 % of distance, as a factor either way" });
  expect(found).toMatchObject({ runs: ["E1", "E2"], cycles: 51, largestRangeN: 100, distance: { value: 2000 } });
  expect(found?.damage.method).toContain("scatterFactor");
});

test("the scatter of lives is a cause of its own, and a cut-off silences small ranges", () => {
  const found = loadDamage([enduranceRun("E1", measures, [[100, 10], [50, 32]])], { lifeLine: { ...lifeLine, cutOff: 60, scatterFactor: Math.E } });
  expect(found?.damage.value).toBeCloseTo(0.01, 12);
  expect(found?.damage.budget[0]).toMatchObject({ cause: "scatter of lives about the life line", sharedBy: "life line" });
  expect(found?.damage.budget[0]?.effect).toBeCloseTo(0.01, 12);
  expect(found?.atMission.method).toContain("missionDistance");
});

test("not determined says why", () => {
  expect(loadDamage([], undefined)).toBeNull();
  expect(loadDamage([enduranceRun("E1", measures)], undefined)).toBeNull();
  const found = loadDamage([enduranceRun("E1", measures, [[100, 10]])], undefined);
  expect(found?.damage).toMatchObject({ standardUncertainty: null, method: "rig.yaml states no lifeLine under endurance" });
  expect(loadDamage([{ ...enduranceRun("E1", measures, [[100, 10]]), verdict: "excluded" }], { lifeLine })).toBeNull();
});
