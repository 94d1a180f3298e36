import { describe, expect, test } from "vitest";
import type { Campaign, RunPlan, WheelRecord } from "../../../src/campaign/campaign.ts";
import type { Finding } from "../../../src/core/finding.ts";
import type { Unit } from "../../../src/core/units.ts";
import { bedOrder } from "../../../src/processing/checks/bedOrder.ts";
import { comparedSpeeds } from "../../../src/processing/checks/comparedSpeeds.ts";
import { comparisonChecks } from "../../../src/processing/checks/comparisonChecks.ts";
import { currentTorque } from "../../../src/processing/checks/currentTorque.ts";
import { rigidWheel } from "../../../src/processing/checks/rigidWheel.ts";
import { sameNumbers } from "../../../src/processing/checks/sameNumbers.ts";
import { stiffnessShift } from "../../../src/processing/checks/stiffnessShift.ts";
import { wheelBlocks } from "../../../src/processing/checks/wheelBlocks.ts";
import { wheelWeight } from "../../../src/processing/checks/wheelWeight.ts";
import { hangingKey } from "../../../src/processing/conditioning/zero.ts";
import type { RunResult, Trace } from "../../../src/processing/dayResult.ts";
import { ownRow, runResult } from "../../helpers/runResult.ts";
import { rigWith, wheel as rigid } from "../recordings.ts";
import { plan } from "./rolled.ts";

const wheels: readonly WheelRecord[] = [{ ...rigid, id: "W1", massKg: 1.2 }, { ...rigid, id: "W2", massKg: 0.9 }, { ...rigid, id: "W3", massKg: 1.05, flexible: true }];
const campaign = (runs: readonly RunPlan[] = [], rig: Readonly<Record<string, unknown>> = {}): Campaign => ({ rig: rigWith(rig), runs, wheels, beds: [], cones: [], inspections: [], issues: [], files: [] });
const codes = (found: readonly Finding[]): string[] => found.map((one) => `${one.code} ${one.severity}`);
const row = (id: string, part: Partial<RunPlan> = {}): RunPlan => ({ ...plan, id, ...part });
const one = (value: number, unit: Unit, u = 0) => ({ value, unit, rows: [ownRow(u)] });

describe("the lifted wheel's weight", () => {
  /** Hanging readings: hub of 0.8 kg and a sensor offset of 3 N, beside the wheel. */
  const hanging = (id: string, named: string, kg: number): RunResult => runResult(row(id, { wheel: named }), {}, { steps: [{ name: "zero", version: "1", parameters: { [hangingKey]: -9.81 * (kg + 0.8) + 3 } }] });
  const day = (odd: RunResult): RunResult[] => [hanging("R1", "W1", 1.2), hanging("R2", "W1", 1.21), odd, hanging("R4", "W2", 0.9), hanging("R5", "W1", 1.19)];
  test("as recorded all day, whatever the sensor's own offset: nothing", () => expect(wheelWeight(day(hanging("R3", "W2", 0.9)), campaign())).toEqual([]));
  test("another wheel than the sheet says is named", () => {
    expect(wheelWeight(day(hanging("R3", "W2", 1.05)), campaign())).toMatchObject([{ code: "wheel-mass-differs", severity: "look", measured: expect.closeTo(0.15, 6) as number, message: expect.stringMatching(/In R3 .* mass of W3/) as string }]);
  });
  test("a wheel off in all its runs has the wrong mass on record", () => {
    const [found] = wheelWeight([hanging("R1", "W1", 1.2), hanging("R2", "W1", 1.2), hanging("R3", "W1", 1.2), hanging("R4", "W2", 1.6), hanging("R5", "W2", 1.6)], campaign());
    expect(found).toMatchObject({ severity: "reject", message: expect.stringContaining("all its runs") as string });
  });
  test("a mass recorded in pounds is named", () => {
    const runs = [hanging("R1", "W1", 1.2), hanging("R2", "W1", 1.2), hanging("R3", "W1", 1.2), hanging("R4", "W2", 0.9 * 0.4536), hanging("R5", "W2", 0.9 * 0.4536)];
    expect(wheelWeight(runs, campaign())[0]?.message).toContain("pound and kilogram");
  });
  test("a sensor that is bare at its zero weighs no wheel, three runs settle nothing", () => {
    expect(wheelWeight(day(hanging("R3", "W2", 1.05)), campaign([], { zero: { state: "sensorBare", beforeS: 2, afterS: 2 } }))).toEqual([]);
    expect(wheelWeight(day(hanging("R3", "W2", 1.05)).slice(0, 3), campaign())).toEqual([]);
  });
});

describe("beds, blocks and speeds", () => {
  const beds = (...names: (string | null)[]): Finding[] => bedOrder(campaign(names.map((bed, i) => row(`R${i}`, { bed }))));
  test("beds follow each other; one that comes back is looked at", () => {
    expect(beds("B1", "B1", null, "B1", "B2", "B2")).toEqual([]);
    expect(beds("B1", "B2", "B1", "B1")).toMatchObject([{ code: "bed-reappears", message: expect.stringContaining("R2") as string }]);
  });

  const order = (...runs: [wheel: string, block: string][]): string[] => codes(wheelBlocks(campaign(runs.map(([wheel, block], i) => row(`R${i}`, { wheel, block })))));
  test("wheels that meet in every block can be told from the day", () => {
    expect(order(["W1", "A"], ["W2", "A"], ["W2", "B"], ["W1", "B"])).toEqual([]);
    expect(order(["W1", "A"], ["W1", "A"], ["W2", "A"], ["W2", "A"])).toEqual([]);
  });
  test("wheels without a common block, or one after the other for long, cannot", () => {
    expect(order(["W1", "A"], ["W2", "B"])).toEqual(["wheels-confounded look"]);
    expect(order(["W1", "A"], ["W1", "A"], ["W1", "A"], ["W2", "A"], ["W2", "A"], ["W2", "A"])).toEqual(["wheels-confounded look"]);
  });

  const at = (id: string, wheel: string, mps: number, setSlip = 0.2): RunResult => runResult(row(id, { wheel, setSlip }), { carriageSpeed: one(mps, "m/s") });
  test("wheels compared at two speeds are looked at; a third slip is another comparison", () => {
    expect(comparedSpeeds([at("R1", "W1", 0.1), at("R2", "W2", 0.101), at("R3", "W2", 0.3, 0.4)], campaign())).toEqual([]);
    expect(codes(comparedSpeeds([at("R1", "W1", 0.1), at("R2", "W2", -0.103)], campaign()))).toEqual(["speeds-compared look"]);
    expect(codes(comparedSpeeds([at("R1", "W1", 0.1), at("R2", "W2", 0.13)], campaign()))).toEqual(["speeds-compared reject"]);
  });
});

describe("numbers that cannot be alike", () => {
  const trace = (shift: number, count = 100): Trace => ({ channel: "drawbarPull", label: "Pull", unit: "N", timesS: [], values: Array.from({ length: count }, (_, i) => Math.sin(i * i) + shift) });
  const traced = (id: string, ...traces: Trace[]): RunResult => runResult(row(id), {}, { traces });
  test("are found whatever the files are called", () => {
    expect(sameNumbers([traced("R1", trace(0)), traced("R2", trace(1)), traced("R3", trace(0))])).toMatchObject([{ code: "same-numbers", severity: "reject", message: expect.stringContaining("R1, R3") as string }]);
    expect(sameNumbers([traced("R1", trace(0)), traced("R2", trace(1))])).toEqual([]);
  });
  test("a channel that hardly changes may be alike", () => expect(sameNumbers([traced("R1", trace(0, 20)), traced("R2", trace(0, 20))])).toEqual([]));
});

describe("wheels that change", () => {
  const pressed = (id: string, nPerM: number, u = 20): RunResult => runResult(row(id, { kind: "loadDeflection", wheel: "W3", setLoadN: null }), { secantStiffness: one(nPerM, "N/m", u) });
  test("a stiffness that moved beyond its doubt is found", () => {
    expect(stiffnessShift([pressed("L1", 10_000), pressed("L2", 10_200)], campaign())).toEqual([]);
    expect(stiffnessShift([pressed("L1", 10_000), pressed("L2", 9_000)], campaign())).toMatchObject([{ code: "stiffness-changed", severity: "look", measured: expect.closeTo(0.1, 9) as number, message: expect.stringContaining("softer") as string }]);
    expect(stiffnessShift([pressed("L1", 10_000, 500), pressed("L2", 9_000, 500)], campaign())).toEqual([]);
    expect(stiffnessShift([pressed("L1", 10_000)], campaign())).toEqual([]);
  });

  const floor = (named: string, dropM: number): RunResult => runResult(row("H1", { kind: "hardFloor", wheel: named }), { hubDrop: one(dropM, "m", 1e-4), verticalLoad: one(60, "N") });
  const curve = { wheel: "W3", runs: ["L1"], loadN: [0, 120], deflectionM: [0, 0.0004], uncertaintyM: [0, 0] };
  const none = { rollingRadii: [], drags: [], deflections: [] };
  test("a wheel given no deflection must not come down on the floor", () => {
    expect(rigidWheel([floor("W1", 0.0003)], campaign(), none)).toEqual([]);
    expect(rigidWheel([floor("W1", 0.004)], campaign(), none)).toMatchObject([{ code: "rigid-deflects", severity: "look", message: expect.stringContaining("recorded as rigid") as string }]);
    expect(rigidWheel([floor("W3", 0.004)], campaign(), { ...none, deflections: [curve] })).toMatchObject([{ code: "rigid-deflects", message: expect.stringContaining("press run") as string }]);
    expect(rigidWheel([floor("W3", 0.004)], campaign(), { ...none, deflections: [{ ...curve, deflectionM: [0, 0.008] }] })).toEqual([]);
  });
});

describe("torque and motor current", () => {
  const driven = (order: number, torqueNm: number, ampere: number): RunResult => {
    const flat = (channel: string, unit: Unit, value: number): Trace => ({ channel, label: channel, unit, timesS: [0, 1, 2, 3], values: [99, value, value, 99] });
    return runResult(row(`R${order}`), { wheelTorque: one(torqueNm, "N.m") }, { segments: [{ kind: "steady", fromS: 1, toS: 3, reason: "" }], traces: [flat("motorCurrent", "A", ampere), flat("temperature", "Cel", 20 + order)] });
  };
  test("a ratio that drifts as the gearbox warms is found", () => {
    const scatter = [0, 0.002, -0.001, 0.001, -0.002, 0];
    expect(currentTorque(scatter.map((s, i) => driven(i, 2 + s, 1)), campaign())).toEqual([]);
    expect(currentTorque(scatter.map((s, i) => driven(i, 2 + s, 1 - 0.012 * i)), campaign())).toMatchObject([{ code: "torque-per-current", severity: "look", message: expect.stringContaining("from 20.0 to 25.0 °C") as string }]);
  });
  test("torque that is the motor's current is said, always", () => {
    const channels = { wheelTorque: { column: "I", unit: "A", sign: 1, calibration: { gives: "N.m", gain: 2, offset: 0, date: "2026-01-01", certificate: "M" } } };
    const loggers = { main: { files: "logs/{run}.csv", kinds: ["traction"], clock: { kind: "elapsed", column: "t", unit: "s" }, channels } };
    expect(codes(currentTorque([], campaign([], { loggers })))).toEqual(["torque-from-current look"]);
  });
});

test("an empty day compares nothing", () => {
  expect(comparisonChecks([], campaign())).toEqual([]);
});
