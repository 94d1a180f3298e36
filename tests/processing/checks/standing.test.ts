import { describe, expect, test } from "vitest";
import { crossTalk } from "../../../src/processing/checks/crossTalk.ts";
import { hangingLoad } from "../../../src/processing/checks/hangingLoad.ts";
import { obstacleChecks } from "../../../src/processing/checks/obstacleChecks.ts";
import { loadShift } from "../../../src/processing/checks/loadShift.ts";
import { beforeStart } from "../../../src/processing/checks/standing.ts";
import { zeroClearance } from "../../../src/processing/checks/zeroClearance.ts";
import { undetermined } from "../../../src/core/estimate.ts";
import type { Finding } from "../../../src/core/finding.ts";
import type { PreparedRun } from "../../../src/processing/preparedRun.ts";
import { agrees } from "../../helpers/agrees.ts";
import { onGround, radiusM, rolled } from "./rolled.ts";

const said = (found: readonly Finding[]): string[] => found.map((one) => `${one.code} ${one.severity}${one.channel === null ? "" : ` ${one.channel}`}`);

describe("before the wheel starts", () => {
  test("the phases of a run are found", () => {
    const before = beforeStart(rolled());
    agrees(before?.standingLoadN ?? NaN, { expected: 60, within: 0.02, source: "made record: 60 N standing, a tenth of the noise" });
    agrees(before?.hangingLoadN ?? NaN, { expected: 0, within: 0.05, source: "made record: hangs free, less than the noise's amplitude" });
    expect(before?.zeroEndS).toBe(2);
  });

  test("a clean run says nothing", () => {
    const run = rolled();
    expect(said([...crossTalk(run), ...hangingLoad(run), ...loadShift(run, 60), ...zeroClearance(run)])).toEqual([]);
  });

  test("pull that comes with the load is cross-talk, and by how much", () => {
    const [found] = crossTalk(rolled({ pull: (t) => 0.02 * 60 * onGround(t) }));
    expect(said(found === undefined ? [] : [found])).toEqual(["cross-talk look drawbarPull"]);
    agrees(found?.measured ?? NaN, { expected: 0.02, within: 1e-3, source: "made record: 2 % of the load" });
  });

  test("torque that comes with the load is cross-talk; more than the outer limit is rejected", () => {
    expect(said(crossTalk(rolled({ torque: (t) => 0.05 * radiusM * 60 * onGround(t) })))).toEqual(["cross-talk reject wheelTorque"]);
  });

  test("what a scanned lane's slope brings into the pull is no cross-talk; what comes beside it is, and an undeclared scan excuses nothing", () => {
    const points = [-0.1, -0.05, 0, 0.05, 0.1].map((positionM) => ({ positionM, acrossM: null, heightM: -0.02 * positionM }));
    const surfaceScan = { relative: 0.01, offset: 0.0001, slope: 0.0003, date: "2026-09-01", certificate: "SCN-3" };
    const onLane = (share: number, rig: Readonly<Record<string, unknown>>): PreparedRun => {
      const run = rolled({ pull: (t) => share * 60 * onGround(t), rig });
      return { ...run, plan: { ...run.plan, surface: { before: points, after: [] } } };
    };
    expect(crossTalk(onLane(0.02, { surfaceScan }))).toEqual([]);
    agrees(crossTalk(onLane(0.035, { surfaceScan }))[0]?.measured ?? NaN, { expected: 0.015, within: 1e-3, source: "made record: 3.5 % of the load, 2 % of it by the slope" });
    expect(said(crossTalk(onLane(0.02, {})))).toEqual(["cross-talk look drawbarPull"]);
  });

  test("noise alone is no cross-talk", () => {
    expect(said(crossTalk(rolled({ rig: { tolerances: { crossTalk: { look: 0, reject: 0.03 } } } })))).toEqual([]);
  });

  test("a hanging wheel that seems to press tells of a wrong mass, either way", () => {
    for (const offset of [-3, 3]) {
      const [found] = hangingLoad(rolled({ load: (t) => 60 * onGround(t) + offset }));
      expect(found?.code).toBe("hanging-load");
      // Its share of what it stands with: 57 or 63 N.
      agrees(found?.measured ?? NaN, { expected: 3 / (60 + offset), within: 1.5e-3, source: "made record" });
    }
  });

  test("a zero taken while touching: the load rises where the zero block hung", () => {
    const found = zeroClearance(rolled({ hub: (t) => (t < 2.5 ? 0.15 : 0.15 - 0.01 * Math.min(t - 2.5, 1)) }));
    expect(said(found)).toEqual(["zero-touching reject verticalLoad"]);
    expect(Math.abs(found[0]?.measured ?? NaN)).toBeLessThan(0.001);
  });

  test("a trial at a step is held against all of it, like a rolling run", () => {
    const trial = (run: PreparedRun): string[] => said(obstacleChecks({ run, obstacle: { heightM: 0.02, edge: "sharp", friction: null, climbed: null }, drive: { kind: "drive", fromS: 5, toS: 9, reason: "test" }, climbed: undetermined("1", "test"), hub: null, work: undetermined("J", "test") }));
    expect(trial(rolled())).toEqual([]);
    expect(trial(rolled({ hub: (t) => (t < 2.5 ? 0.15 : 0.15 - 0.01 * Math.min(t - 2.5, 1)) }))).toEqual(["zero-touching reject verticalLoad"]);
  });

  test("a sensor zeroed bare needs no clearance", () => {
    expect(zeroClearance(rolled({ hub: () => 0.15, rig: { zero: { state: "sensorBare", beforeS: 2, afterS: 2 } } }))).toEqual([]);
  });

  test("a load that changes when the wheel drives is said with its direction", () => {
    expect(loadShift(rolled(), 57)[0]).toMatchObject({ code: "load-shifts", severity: "look", message: expect.stringContaining("falls by 5.0 %") as string });
    expect(loadShift(rolled(), 67)[0]).toMatchObject({ severity: "reject", message: expect.stringContaining("rises") as string });
  });
});
