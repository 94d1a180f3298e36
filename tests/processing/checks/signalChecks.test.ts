import { describe, expect, test } from "vitest";
import type { Finding } from "../../../src/core/finding.ts";
import type { Recording } from "../../../src/core/recording.ts";
import { bedSlope } from "../../../src/processing/checks/bedSlope.ts";
import { clockLag } from "../../../src/processing/checks/clockLag.ts";
import { levelJump } from "../../../src/processing/checks/levelJump.ts";
import { linePickup } from "../../../src/processing/checks/linePickup.ts";
import { aliasOf, lugSampling } from "../../../src/processing/checks/lugSampling.ts";
import { signalChecks } from "../../../src/processing/checks/signalChecks.ts";
import { soilCarried } from "../../../src/processing/checks/soilCarried.ts";
import { driftKey } from "../../../src/processing/conditioning/zero.ts";
import type { PreparedRun } from "../../../src/processing/preparedRun.ts";
import { steady } from "../readings.ts";
import { radiusM, rolled, startS, turned, windowOf } from "./rolled.ts";

const codes = (found: readonly Finding[]): string[] => found.map((one) => `${one.code} ${one.severity}`);
const rolling = (t: number): number => Number(t > startS && t < 34);
const spin = 1.5;

describe("signals", () => {
  test("of a run in order say nothing", () => {
    const run = rolled();
    expect(signalChecks(run, windowOf(run), { speed: steady(0.126, "m/s"), turning: steady(spin, "rad/s"), load: steady(60, "N"), pull: steady(12, "N"), torque: steady(2.2, "N.m"), sideForce: null })).toEqual([]);
  });
});

describe("lugs and the sampling rate", () => {
  test("a frequency shows folded about half the rate", () => {
    expect([aliasOf(3, 100), aliasOf(50, 100), aliasOf(60, 100), aliasOf(101, 100), aliasOf(230, 100)]).toEqual([3, 50, 40, 1, 30]);
  });

  test("fewer than four samples a lug are looked at, fewer than two refused", () => {
    const run = rolled();
    const window = windowOf(run);
    // 24 lugs at 100 samples a second
    const at = (samples: number): string[] => codes(lugSampling(run, window, (2 * Math.PI * 100) / 24 / samples));
    expect([at(4.1), at(3.9), at(2.1), at(1.9)]).toEqual([[], ["lug-sampling look"], ["lug-sampling look"], ["lug-sampling reject"]]);
    expect(lugSampling({ ...run, wheel: null }, window, 100)).toEqual([]);
  });
});

describe("mains pickup", () => {
  const buzz = (hz: number, amplitude: number): PreparedRun => rolled({ pull: (t) => rolling(t) * (12 + amplitude * Math.sin(2 * Math.PI * hz * t + 1)) });
  const found = (run: PreparedRun): Finding[] => linePickup(run, windowOf(run), 60, spin);
  test("60 Hz folded to 40 Hz is found with its amplitude", () => {
    const [one] = found(buzz(60, 2));
    expect(one).toMatchObject({ code: "line-pickup", severity: "look", channel: "drawbarPull" });
    // 2 N of 60 N; a line between two bins of the spectrum loses up to a sixth behind a Hann window
    expect(one?.measured).toBeGreaterThan((0.83 * 2) / 60);
    expect(one?.measured).toBeLessThan((1.03 * 2) / 60);
  });
  test("another frequency, or one that is the lugs' own, is not named", () => {
    expect(found(buzz(33, 2))).toEqual([]);
    const run = buzz(60, 2);
    // 24 lugs passing 20 times a second: the third harmonic is at 60 Hz
    expect(linePickup(run, windowOf(run), 60, (2 * Math.PI * 20) / 24)).toEqual([]);
  });
});

describe("heights", () => {
  const hub = (t: number): number => (t < 1.9 ? 0.15 : 0.15 - 0.01 * Math.min(t - 1.9, 2));
  test("a jump from one sample to the next is found with its size, a spike's two as two", () => {
    const slipped = rolled({ hub: (t) => hub(t) - (t > 20 ? 0.004 : 0) });
    expect(levelJump(slipped, windowOf(slipped))).toMatchObject([{ code: "level-jump", severity: "look", channel: "hubHeight", measured: expect.closeTo(0.004, 6) as number }]);
    const dust = rolled({ hub: (t) => hub(t) - (t > 20 && t < 20.5 ? 0.02 : 0) });
    expect(levelJump(dust, windowOf(dust))[0]).toMatchObject({ severity: "reject", message: expect.stringContaining("2 times") as string });
  });
  test("a carriage that starts and stops, and a hub that sinks, do not jump", () => {
    const run = rolled({ hub: (t) => hub(t) - 0.02 * (1 - Math.exp(-Math.max(0, t - startS) / 0.2)) });
    expect(levelJump(run, windowOf(run))).toEqual([]);
  });

  test("a bed that slopes is found with what it does to the sinkage", () => {
    const slope = 0.002;
    const run = rolled({ hub: (t) => hub(t) - slope * 0.8 * radiusM * turned(t) });
    const window = windowOf(run);
    const [one] = bedSlope(run, window);
    const way = 0.8 * radiusM * turned((window.segment.fromS + window.segment.toS) / 2);
    expect(one).toMatchObject({ code: "bed-slope", severity: "look", measured: expect.closeTo(slope * way, 5) as number });
    expect(bedSlope(rolled(), windowOf(rolled()))).toEqual([]);
  });
});

describe("clocks", () => {
  /** The same run recorded by two loggers, the second one's clock off by `offS`. */
  const two = (offS: number): PreparedRun => {
    const run = rolled();
    const [all] = run.recordings as [Recording];
    const drive = ["wheelAngle", "carriagePosition"];
    const only = (take: boolean): Recording => ({ ...all, channels: all.channels.filter((one) => drive.includes(one.name) === take) });
    const moved = only(true);
    return { ...run, recordings: [only(false), { ...moved, time: { kind: "stamped", timesS: Float64Array.from(all.time.kind === "stamped" ? all.time.timesS : [], (t) => t + offS) } }] };
  };
  const found = (offS: number): string[] => codes(clockLag(two(offS), windowOf(two(offS)), spin, 2.2));
  test("torque before turning is impossible; late, the ground may have given way", () => {
    expect([found(0), found(0.1), found(0.4), found(2)]).toEqual([[], [], ["clock-lag look"], ["clock-lag reject"]]);
    // a twelfth of a revolution takes 0.35 s here
    expect([found(-0.3), found(-0.8), found(-2)]).toEqual([[], ["clock-lag look"], ["clock-lag reject"]]);
  });
  test("a torque that swings about zero begins nowhere", () => {
    const swinging = rolled({ torque: (t) => rolling(t) * (0.2 + Math.sin(1.3 * t)) });
    const [all] = swinging.recordings as [Recording];
    const apart = { ...swinging, recordings: two(2).recordings.map((recording, i) => (i === 0 ? { ...recording, channels: all.channels.filter((one) => one.name !== "wheelAngle" && one.name !== "carriagePosition") } : recording)) };
    expect(clockLag(apart, windowOf(apart), spin, 0.2)).toEqual([]);
  });
  test("one logger has one clock", () => expect(clockLag(rolled(), windowOf(rolled()), spin, 2.2)).toEqual([]));
});

describe("soil in the wheel", () => {
  const drifted = (driftN: number): PreparedRun => {
    const run = rolled();
    return { ...run, recordings: run.recordings.map((recording) => ({ ...recording, history: [{ name: "zero", version: "1", parameters: { [driftKey("verticalLoad")]: driftN } }] })) };
  };
  test("a wheel that hangs heavier after the run carries soil; a lighter one lost none of its own", () => {
    expect(soilCarried(drifted(-9.81 * 0.1))).toMatchObject([{ code: "soil-carried", severity: "look", measured: expect.closeTo(0.1, 6) as number }]);
    expect(soilCarried(drifted(9.81 * 0.1))).toEqual([]);
    expect(soilCarried(drifted(-9.81 * 0.02))).toEqual([]);
  });
});
