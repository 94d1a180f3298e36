import { describe, expect, test } from "vitest";
import { estimateFrom } from "../../../src/core/estimate.ts";
import type { Finding } from "../../../src/core/finding.ts";
import type { Measure } from "../../../src/core/measure.ts";
import { encoderRatio } from "../../../src/processing/checks/encoderRatio.ts";
import { localHole } from "../../../src/processing/checks/localHole.ts";
import { lugOrder } from "../../../src/processing/checks/lugOrder.ts";
import { plausibleTraction } from "../../../src/processing/checks/plausibleTraction.ts";
import { powerSigns } from "../../../src/processing/checks/powerSigns.ts";
import { radiusChoice } from "../../../src/processing/checks/radiusChoice.ts";
import { carriageSpeedFindings } from "../../../src/processing/checks/speeds.ts";
import { tiltAtZero } from "../../../src/processing/checks/tiltAtZero.ts";
import type { TractionReadings } from "../../../src/processing/tractionRun.ts";
import { agrees } from "../../helpers/agrees.ts";
import { steady } from "../readings.ts";
import { radiusM, rolled, startS, turned, windowOf } from "./rolled.ts";

const codes = (found: readonly Finding[]): string[] => found.map((one) => `${one.code} ${one.severity}`);
const segment = { kind: "steady", fromS: 8, toS: 30, reason: "" } as const;

describe("speeds and encoder", () => {
  const run = rolled();
  const rim = steady(1.5, "rad/s");
  test("as set and as recorded: nothing", () => {
    expect([...encoderRatio(run, steady(0.126, "m/s"), rim, 0.8), ...carriageSpeedFindings(run, steady(0.126, "m/s"), segment)]).toEqual([]);
  });

  test("fourfold edges and a gear left out are named", () => {
    const four = encoderRatio(run, steady(0.126, "m/s"), steady(1.5 * 4, "rad/s"), 0.8);
    expect(four[0]).toMatchObject({ code: "encoder-ratio", severity: "reject", message: expect.stringContaining("fourfold") as string });
    const geared = { ...run, rig: { ...run.rig, encoder: { countsPerRevolution: 4096, gear: 20, rollover: null } } };
    expect(encoderRatio(geared, steady(0.126, "m/s"), steady(1.5 / 20, "rad/s"), 0.8)[0]?.message).toContain("gear between encoder and wheel");
  });

  test("a speed off its set value names the unit; an uneven one is said", () => {
    expect(carriageSpeedFindings(run, steady(0.126 / 3.6, "m/s"), segment)[0]).toMatchObject({ code: "speed-off", severity: "reject", message: expect.stringContaining("kilometre per hour") as string });
    expect(codes(carriageSpeedFindings(run, { ...steady(0.126, "m/s"), perRevolution: [0.12, 0.126, 0.132] }, segment))).toEqual(["speed-spread look"]);
  });
});

describe("the pull along the way", () => {
  const rolling = (t: number): number => Number(t > startS && t < 34);
  const ripple = (order: number) => rolled({ pull: (t) => rolling(t) * (12 + 0.5 * Math.sin(order * turned(t))) });

  test("ripple at the lugs' order: nothing; without ripple: nothing", () => {
    for (const run of [ripple(24), rolled()]) expect(lugOrder(run, windowOf(run))).toEqual([]);
  });

  test("ripple beside it is measured", () => {
    const run = ripple(24 * 0.98);
    const [found] = lugOrder(run, windowOf(run));
    expect(found).toMatchObject({ code: "lug-order", severity: "look" });
    agrees(found?.measured ?? NaN, { expected: 0.02, within: 1e-3, source: "made record: the encoder turns 2 % more than the wheel" });
  });

  test("a slow logger's samples, fewer than the steps of the angle, are no ripple", () => {
    for (const keep of [2, 3]) {
      const run = ripple(24);
      const [recording] = run.recordings as [(typeof run.recordings)[number]];
      const thinned = (samples: Iterable<number>): Float64Array => Float64Array.from(Array.from(samples).filter((_, i) => i % keep === 0));
      const timesS = thinned(recording.time.kind === "stamped" ? recording.time.timesS : []);
      const slow = { ...run, recordings: [{ ...recording, time: { kind: "stamped" as const, timesS }, channels: recording.channels.map((channel) => ({ ...channel, samples: thinned(channel.samples) })) }] };
      expect(lugOrder(slow, windowOf(slow))).toEqual([]);
    }
  });

  test("one soft place is found, the wheel's own unevenness is not", () => {
    const even = rolled({ pull: (t) => rolling(t) * (12 + 3 * Math.sin(turned(t))) });
    expect(localHole(even, windowOf(even), 60)).toEqual([]);
    const holed = rolled({ pull: (t) => rolling(t) * (12 + 3 * Math.sin(turned(t)) - 8 * Math.exp(-(((t - 20) / 0.3) ** 2))) });
    expect(localHole(holed, windowOf(holed), 60)[0]).toMatchObject({ code: "local-hole", message: expect.stringContaining("falls") as string });
  });

  test("another tilt at the zero leaves weight in the pull", () => {
    const tilted = (angle: number) => rolled({ tilt: (t) => (t > 2.2 && t < 37 ? angle : 0) });
    expect(tiltAtZero(tilted(0), segment, 60)).toEqual([]);
    const [found] = tiltAtZero(tilted(0.02), segment, 60);
    // 0.8 kg below the sensor and a wheel of 1.2 kg, gravity 9.81 m/s².
    agrees(found?.measured ?? NaN, { expected: (2 * 9.81 * Math.sin(0.02)) / 60, relative: 1e-6, source: "m·g·sin α over the load" });
  });
});

describe("what cannot be", () => {
  const readings = (torque: number, pull: number): TractionReadings => ({ speed: steady(0.126, "m/s"), turning: steady(1.5, "rad/s"), load: steady(60, "N"), pull: steady(pull, "N"), torque: steady(torque, "N.m"), sideForce: null });

  test("signs by power: ground takes and never gives", () => {
    expect(powerSigns(readings(2.1, 12), true, segment)).toEqual([]);
    expect(powerSigns(readings(-0.3, -8), false, segment)).toEqual([]);
    expect(codes(powerSigns(readings(-2.1, 12), true, segment))).toEqual(["power-from-nothing reject"]);
    expect(codes(powerSigns(readings(-2.1, -26), true, segment))).toEqual(["torque-sign reject"]);
    expect(codes(powerSigns(readings(-0.3, 8), false, segment))).toEqual(["power-from-nothing reject"]);
  });

  test("slip from the record's radius beside slip from the rolled one", () => {
    const run = rolled({ rig: { slipRadius: { policy: "unloaded", lugs: "with" } } });
    const references = { rollingRadii: [{ wheel: "W1", loadN: 60, runs: ["H1"], estimate: estimateFrom(0.102, "m", "test", []) }], drags: [], deflections: [] };
    const [found] = radiusChoice(run, radiusM, 0.2, 60, references);
    agrees(found?.measured ?? NaN, { expected: 0.8 * (radiusM / 0.102 - 1), relative: 1e-9, source: "(1 − s)(r/rₑ − 1)" });
    expect(radiusChoice(rolled(), radiusM, 0.2, 60, references)).toEqual([]);
  });

  test("torque beyond friction, a hub above the ground, a wheel sunk past its axle", () => {
    const measure = (name: string, value: number, unit: "1" | "m", u: number): Measure => ({ name, label: name, segment: null, estimate: estimateFrom(value, unit, "test", [{ cause: "test", effect: u, sharedBy: null, degreesOfFreedom: Infinity }]) });
    const said = (gross: number, sinkageM: number): string[] => codes(plausibleTraction(rolled(), [measure("grossTractionRatio", gross, "1", 0.01), measure("sinkageRunning", sinkageM, "m", 0.0002)]));
    expect(said(0.5, 0.012)).toEqual([]);
    expect(said(0.5, -0.001)).toEqual([]);
    expect(said(1.2, 0.012)).toEqual(["torque-implausible look"]);
    expect(said(3, -0.004)).toEqual(["torque-implausible reject", "sinkage-negative look"]);
    expect(said(0.5, 0.2)).toEqual(["sinkage-implausible reject"]);
  });
});
