import { describe, expect, test } from "vitest";
import type { WheelRecord } from "../../src/campaign/campaign.ts";
import { wheelObservationsFrom } from "../../src/fitting/wheelObservations.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { plan } from "../helpers/pressRun.ts";
import { ownRow, runResult, sharedRow } from "../helpers/runResult.ts";

const wheel = (id: string, flexible: boolean): WheelRecord => ({ id, radiusM: 0.1, widthM: 0.08, massKg: 1, lugs: 20, lugHeightM: 0.005, flexible, description: "", bareFrame: null, factors: {}, line: 2 });
const wheels = [wheel("W1", false), wheel("W2", true)];
const load = { value: 50, unit: "N" as const, rows: [sharedRow(0.5, "calibration load cell")] };
const measures = {
  verticalLoad: load,
  pullCoefficient: { value: 0.2, unit: "1" as const, rows: [ownRow(0.004)] },
  wheelTorque: { value: 2.1, unit: "N.m" as const, rows: [ownRow(0.02), sharedRow(0.021, "calibration load cell")] },
  sinkageRunning: { value: 0.021, unit: "m" as const, rows: [ownRow(0.001)] },
};
const driven = { ...measures, slip: { value: 0.2, unit: "1" as const, rows: [ownRow(0.002)] } };
const traction = (id: string, of: Parameters<typeof runResult>[1], rest: Partial<RunResult> = {}, on = "W1"): RunResult => runResult(plan("traction", { id, wheel: on, setLoadN: 50, setSlip: 0.2 }), of, rest);
const from = (runs: readonly RunResult[], deflections: Parameters<typeof wheelObservationsFrom>[2] = []) => wheelObservationsFrom(runs, { wheels, beds: [{ id: "B1", densityKgM3: 1600 }, { id: "B2", densityKgM3: null }], rig: { gravity: 9.81 } }, deflections);

describe("a driven run", () => {
  const [observation] = from([traction("T1", driven)]).observations;

  test("as shares: torque and sinkage by the radius to the lugs' tips", () => {
    expect(observation?.measured.pull?.value).toBe(0.2);
    expect(observation?.measured.torque?.value).toBeCloseTo(2.1 / (0.105 * 50), 12);
    expect(observation?.measured.sinkage?.value).toBeCloseTo(0.021 / 0.105, 12);
    expect(observation?.wheel).toMatchObject({ id: "W1", rimM: 0.1, widthM: 0.08, lugs: 20, lugHeightM: 0.005, curve: null });
  });

  test("the bed's unit weight is density times gravity; without a density there is none", () => {
    const on = (bed: string | null) => from([{ ...traction("T1", driven), plan: { ...traction("T1", driven).plan, bed } }]).observations[0]?.unitWeight;
    expect(on("B1")).toBeCloseTo(15_696, 9);
    expect([on("B2"), on(null)]).toEqual([null, null]);
  });

  test("a calibration behind torque and load cancels in their ratio", () => {
    const left = observation?.measured.torque?.budget.find(({ cause }) => cause === "calibration load cell")?.effect ?? 0;
    // 1 % in each; what differences leave is rounding
    expect(Math.abs(left)).toBeLessThan(1e-5 * (observation?.measured.torque?.value ?? 0));
  });
});

test("a braked run counts its slip below zero, with the sign of its doubts", () => {
  const [observation] = from([traction("T2", { ...measures, skid: { value: 0.1, unit: "1", rows: [ownRow(0.002)] } })]).observations;
  expect(observation?.slip.value).toBe(-0.1);
  expect(observation?.slip.budget[0]?.effect).toBe(-0.002);
});

test("a flexible wheel brings its curve, without points that noise put below the one before", () => {
  const curve = { wheel: "W2", runs: ["L"], deflectionM: [0, 0.001, 0.002, 0.003], loadN: [0, 20, 19, 60], uncertaintyM: [0, 0, 0, 0] };
  const { observations } = from([traction("T3", driven, {}, "W2")], [curve]);
  expect(observations[0]?.wheel.curve).toEqual({ deflectionM: [0.001, 0.003], loadN: [20, 60] });
});

test("runs that do not count are listed with the reason", () => {
  const { observations, refused } = from([
    traction("A", driven, { verdict: "repeat", reasons: ["the zero drifts"] }),
    traction("B", driven, {}, "W9"),
    traction("C", measures),
    traction("D", driven, {}, "W2"),
    traction("E", { verticalLoad: load, slip: driven.slip }),
    runResult(plan("hardFloor", { id: "F" }), {}),
  ]);
  expect(observations).toEqual([]);
  expect(refused.map(({ run, reason }) => [run, reason])).toEqual([
    ["A", "rejected: the zero drifts"],
    ["B", "its wheel has no record"],
    ["C", "no slip with an uncertainty: none was measured"],
    ["D", "the wheel is flexible and has no load–deflection run"],
    ["E", "neither pull nor torque nor sinkage has an uncertainty"],
  ]);
  expect(refused.every(({ kept }) => !kept)).toBe(true);
});
