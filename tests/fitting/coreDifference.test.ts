import { expect, test } from "vitest";
import { coreDifferencesFrom } from "../../src/fitting/coreDifference.ts";
import { plan } from "../helpers/pressRun.ts";
import { ownRow, runResult, sharedRow } from "../helpers/runResult.ts";
import { wheel } from "../processing/recordings.ts";

const wheels = [{ ...wheel, id: "F" }, { ...wheel, id: "FC", bareFrame: "F" }];

function pressed(id: string, of: string, stiffness: number, setLoadN: number | null = 100) {
  return runResult(plan("loadDeflection", { id, wheel: of, setLoadN }), {
    secantStiffness: { value: stiffness, unit: "N/m", rows: [ownRow(30, `contact point of ${id}`), sharedRow(0.01 * stiffness, "calibration LC-1")] },
    loopEnergy: { value: stiffness * 3e-6, unit: "J", rows: [ownRow(0.0005, `scatter between cycles, ${id}`)] },
  });
}

test("the core is the difference, and a calibration that both share enters by its difference only", () => {
  const [pair] = coreDifferencesFrom([pressed("A", "F", 15e3), pressed("B", "FC", 19e3)], wheels);
  const stiffness = pair?.differences.find((row) => row.measure === "secantStiffness")?.core;
  expect(stiffness?.value).toBeCloseTo(4000, 6);
  // 1 % of the difference, 40 N/m, not of either stiffness; with 30 N/m of each run alone
  expect(stiffness?.standardUncertainty).toBeCloseTo(Math.hypot(40, 30, 30), 3);
  const energy = pair?.differences.find((row) => row.measure === "loopEnergy")?.core;
  expect(energy?.value).toBeCloseTo(0.012, 9);
  expect(energy?.standardUncertainty).toBeCloseTo(0.0005 * Math.SQRT2, 9);
});

test("several runs of a side are averaged and their scatter counts", () => {
  const [pair] = coreDifferencesFrom([pressed("A", "F", 15e3), pressed("B", "FC", 18.8e3), pressed("C", "FC", 19.2e3)], wheels);
  const row = pair?.differences.find((entry) => entry.measure === "secantStiffness");
  expect(row?.withCore.value).toBeCloseTo(19e3, 6);
  expect(row?.core.budget.map((entry) => entry.cause)).toContain("scatter between runs of FC");
});

test("a side that is missing, a load that is not shared, and a wheel that names no frame", () => {
  const [pair] = coreDifferencesFrom([pressed("A", "F", 15e3, 80), pressed("B", "FC", 19e3, 100)], wheels);
  expect(pair?.setLoadN).toBeNull();
  expect(pair?.differences[0]?.core.method).toContain("at one and the same set load");
  expect(pair?.differences[1]?.core.standardUncertainty).toBeNull();
  expect(coreDifferencesFrom([pressed("A", "F", 15e3)], [{ ...wheel, id: "F" }])).toEqual([]);
});
