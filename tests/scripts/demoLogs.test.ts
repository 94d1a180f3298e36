import { describe, expect, test } from "vitest";
import { excerptPlan } from "../../scripts/demo/dayPlan.ts";
import { bridgeRange, decoupling, encoder, gravity, massBelowSensorKg, sensorErrors } from "../../scripts/demo/rigTruth.ts";
import { driveLog, frameLog } from "../../scripts/demo/rollingLogs.ts";
import type { LogFault } from "../../scripts/demo/rollingLogs.ts";
import { rollingRun } from "../../scripts/demo/rollingRun.ts";
import { bedTruth } from "../../scripts/demo/soilTruth.ts";
import { wheels } from "../../scripts/demo/wheelTruth.ts";

const rateHz = 100;
const wheel = wheels.find((one) => one.id === "W3")!;
const plan = excerptPlan().find((run) => run.kind === "traction" && run.slip === 0.2)!;
const rolling = rollingRun(7, plan, wheel, bedTruth(7, "B02"));
const exact = { ...sensorErrors(7), sixAxis: [1, 1, 1, 1, 1, 1], pot: 1, carriage: 1 };
const startMs = Date.UTC(2026, 9, 6, 23, 59, 50);

/** Rows of a frame log as numbers: bridges 1–6, wire, event line; with their stamps. */
function frame(fault: LogFault): { stamps: string[]; rows: number[][] } {
  const lines = Buffer.from(frameLog(7, plan, wheel, rolling, exact, startMs, rateHz, fault)).toString("latin1").trimEnd().split("\n");
  const cells = lines.slice(lines.findIndex((line) => line.startsWith("UTC")) + 1).map((line) => line.split("\t"));
  return { stamps: cells.map((row) => row[0]!), rows: cells.map((row) => row.slice(1).map((cell) => Number(cell.replace(",", ".")))) };
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const output = (row: readonly number[], index: number): number => decoupling[index]!.reduce((sum, cell, bridge) => sum + cell * row[bridge]!, 0);
const rises = (values: readonly number[]): number => values.filter((value, index) => value > 2.5 && (values[index - 1] ?? 5) <= 2.5).length;

describe("a frame log", () => {
  const { stamps, rows } = frame({});

  test("counts time in UTC over midnight", () => {
    expect(stamps[0]).toBe("06.10.2026 23:59:50,000");
    expect(stamps[1]).toBe("06.10.2026 23:59:50,010");
    expect(stamps[1000]).toBe("07.10.2026 00:00:00,000");
  });

  test("hangs the wheel on the sensor during both zero blocks, and carries the load between", () => {
    const weight = (massBelowSensorKg + wheel.massKg) * gravity;
    const block = rows.slice(0, 2 * rateHz).map((row) => output(row, 2));
    const after = rows.slice(-2 * rateHz).map((row) => output(row, 2));
    // the bridges' balance: 0.0005 mV/V or 0.25 N, four times over; the drift: 0.15 N, four times over
    expect(Math.abs(mean(block) + weight)).toBeLessThan(1);
    expect(Math.abs(mean(after) - mean(block))).toBeLessThan(0.6);
    const turn = (2 * Math.PI) / (rolling.truth["angularSpeedRadS"] as number);
    const from = Math.round((rolling.phases["startS"]! + 1.2) * rateHz);
    const steady = rows.slice(from, from + Math.round(3 * turn * rateHz));
    const load = mean(steady.map((row) => output(row, 2))) - mean(block);
    const pull = -mean(steady.map((row) => output(row, 0))) + mean(rows.slice(0, 2 * rateHz).map((row) => output(row, 0)));
    // over whole turns the ripple is gone but for the load control's slow 0.6 %
    expect(Math.abs(load - (rolling.truth["loadN"] as number))).toBeLessThan(0.6);
    expect(Math.abs(pull - (rolling.truth["pullN"] as number))).toBeLessThan(0.2);
  });

  test("lets the wire out by sinkage and deflection together", () => {
    const at = (timeS: number): number => mean(rows.slice(Math.round(timeS * rateHz), Math.round(timeS * rateHz) + 20).map((row) => row[6]!));
    const drop = (at(rolling.phases["endS"]! - 0.5) - at(rolling.phases["touchS"]! - 0.1)) * 30.02;
    const truth = (rolling.truth["hubDropM"] as number) * 1000;
    // touch-down is met 0.1 s early, at most 0.012 m/s · 0.1 s above the ground; 0.2 mm of ripple
    expect(drop).toBeGreaterThan(truth - 0.2);
    expect(drop).toBeLessThan(truth + 1.4);
  });

  test("shows two events, as the drive log does", () => {
    const drive = Buffer.from(driveLog(7, plan, rolling, exact, { leadS: 1.5, ratePpm: 40 }, 50)).toString().trimEnd().split("\r\n").slice(1).map((line) => line.split(",").map(Number));
    expect(rises(rows.map((row) => row[7]!))).toBe(2);
    expect(rises(drive.map((row) => row[3]!))).toBe(2);
    const counts = drive.map((row) => row[1]!);
    expect(Math.max(...counts)).toBeLessThan(encoder.rollover);
    expect(counts.some((count, index) => count < (counts[index - 1] ?? 0) - encoder.rollover / 2)).toBe(true);
  });
});

describe("faults on purpose", () => {
  test("a gap loses its rows and nothing else", () => {
    const whole = frame({});
    const gap = frame({ gapS: [7.2, 8.7] });
    expect(whole.rows.length - gap.rows.length).toBe(1.5 * rateHz);
    expect(gap.stamps[720]).toBe(whole.stamps[870]);
  });

  test("an unbalanced bridge ends at its amplifier's range only under load", () => {
    const { rows } = frame({ unbalanced: [2, 1.93] });
    const third = rows.map((row) => row[2]!);
    expect(Math.max(...third)).toBe(bridgeRange);
    expect(Math.max(...third.slice(0, 2 * rateHz))).toBeLessThan(bridgeRange);
  });

  test("a drifting zero moves the pull reading from the first block to the last", () => {
    const { rows } = frame({ pullDriftN: 9 });
    const shift = mean(rows.slice(-2 * rateHz).map((row) => output(row, 0))) - mean(rows.slice(0, 2 * rateHz).map((row) => output(row, 0)));
    // linear over the whole log, so the blocks' middles are one block length short of it
    const share = 1 - 2 / rolling.durationS;
    expect(Math.abs(shift - 9 * share)).toBeLessThan(0.25);
  });
});
