import { describe, expect, test } from "vitest";
import type { Campaign } from "../../../src/campaign/campaign.ts";
import { dayChecks } from "../../../src/processing/checks/dayChecks.ts";
import { sideForceGrows } from "../../../src/processing/checks/sideForceGrows.ts";
import type { RunResult } from "../../../src/processing/dayResult.ts";
import { agrees } from "../../helpers/agrees.ts";
import { ownRow, runResult } from "../../helpers/runResult.ts";
import { rigWith } from "../recordings.ts";
import { plan } from "./rolled.ts";

const campaign: Campaign = { rig: rigWith(), runs: [], wheels: [], beds: [], cones: [], inspections: [], issues: [], files: [] };
const loads = [40, 70, 110, 40, 70, 110, 40, 110];
/** a scatter that sums to nothing at each load */
const wobble = [0.05, -0.05, 0.05, -0.05, 0.05, -0.05, 0, 0];
const day = (side: (loadN: number, i: number) => number, standing: ((loadN: number) => number) | null, rest: Partial<RunResult> = {}): RunResult[] =>
  loads.map((loadN, i) => runResult({ ...plan, id: `R${i}` }, {
    verticalLoad: { value: loadN, unit: "N", rows: [ownRow(0.1)] },
    sideForce: { value: side(loadN, i) + (wobble[i] as number), unit: "N", rows: [ownRow(0.1)] },
    ...(standing === null ? {} : { sideForceStanding: { value: standing(loadN), unit: "N" as const, rows: [ownRow(0.1)] } }),
  }, rest));
const found = (runs: readonly RunResult[]) => sideForceGrows(runs, campaign);

describe("side force over the day", () => {
  test("one sign that grows with the load and comes with rolling is a wheel that stands askew", () => {
    const [only] = found(day((loadN) => -0.02 * loadN, () => 0.1));
    expect(only?.code).toBe("side-force-grows");
    expect(dayChecks(day((loadN) => -0.02 * loadN, () => 0.1), campaign, { rollingRadii: [], drags: [], deflections: [] }).map((one) => one.code)).toContain("side-force-grows");
    agrees(only?.measured ?? NaN, { expected: 0.02, within: 0.001, source: "made day: 2 % of the load put in" });
    expect(only?.message).toContain("does not stand square");
  });

  test("what already grows while the wheel stands is cross-talk or a lean", () => {
    expect(found(day((loadN) => 0.02 * loadN, (loadN) => 0.018 * loadN))[0]?.message).toContain("talks into the side force");
  });

  test("without the standing side force nothing is said of the cause, but where to look", () => {
    const [only] = found(day((loadN) => 0.02 * loadN, null));
    expect(only?.message).toContain("load the wheel while it stands");
  });

  test("both signs, no growth, a growth within chance, one load or rejected runs say nothing", () => {
    expect(found(day((loadN, i) => (i % 2 === 0 ? 0.02 : -0.02) * loadN, () => 0))).toEqual([]);
    expect(found(day((loadN) => 0.02 * (loadN - 70), () => 0))).toEqual([]);
    expect(found(day(() => 1, () => 0))).toEqual([]);
    expect(found(day((loadN, i) => 0.02 * loadN + 1 + (i % 2 === 0 ? 1.5 : -0.9), () => 0))).toEqual([]);
    expect(found(day((loadN) => 0.004 * loadN, () => 0))).toEqual([]);
    expect(found(day((loadN) => 0.02 * loadN, () => 0).filter((run) => run.measures[0]?.estimate.value !== 110).slice(0, 5))).toEqual([]);
    expect(found(day((loadN) => 0.02 * loadN, () => 0, { verdict: "repeat" }))).toEqual([]);
  });
});
