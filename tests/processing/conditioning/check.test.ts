import { describe, expect, test } from "vitest";
import { check } from "../../../src/processing/conditioning/check.ts";
import { flatTop } from "../../../src/processing/conditioning/flatTop.ts";
import { repeatedRows } from "../../../src/processing/conditioning/repeatedRows.ts";
import type { Recording } from "../../../src/core/recording.ts";
import { record, rigWith } from "../recordings.ts";

// Noise in steps of a converter, no two draws alike.
const noise = (i: number, k = 1): number => Math.round(40 * Math.sin(0.7 * i * i + k * i)) / 1000;
const codes = (recording: Recording): string[] => check(recording, "frame", rigWith()).map((one) => one.code);
const three = (hold: (i: number) => number, cut = Infinity): Recording =>
  record(100, 20, {
    drawbarPull: { unit: "N", of: (_, i) => Math.min(cut, Math.sin(0.05 * i) + noise(hold(i), 1)) },
    verticalLoad: { unit: "N", of: (_, i) => noise(hold(i), 3) },
    sideForce: { unit: "N", of: (_, i) => noise(hold(i), 5) },
  });

describe("faults that a log shows by itself", () => {
  test("a log in order says nothing", () => expect(codes(three((i) => i))).toEqual([]));

  test("a channel that is cut off below its stated range", () => {
    const recording = three((i) => i, 0.7);
    const [pull, load] = recording.channels;
    expect(pull === undefined ? [] : flatTop(recording, pull)).toMatchObject([{ code: "flat-top", severity: "reject", channel: "drawbarPull", limit: 5 }]);
    expect(load === undefined ? ["none"] : flatTop(recording, load)).toEqual([]);
  });

  test("a position that rests at its end is not cut off", () => {
    const rests = record(100, 20, { carriagePosition: { unit: "m", of: (t) => Math.min(1, 0.1 * t) } });
    expect(codes(rests)).toEqual([]);
  });

  test("rows that repeat the row before, here and there or every second one", () => {
    const held = (every: number): Recording => {
      const recording = three((i) => i);
      const channels = recording.channels.map((channel) => ({ ...channel, samples: channel.samples instanceof Float64Array ? channel.samples.map((value, i, all) => (i % every === 1 ? (all[i - 1] as number) : value)) : channel.samples }));
      return { ...recording, channels };
    };
    expect(repeatedRows(held(50), "frame")).toMatchObject([{ code: "rows-repeated", measured: 40 }]);
    expect(repeatedRows(held(2), "frame")).toMatchObject([{ code: "rows-repeated", measured: 1000 }]);
  });

  test("a rig at rest repeats its rows for long, and that is no fault", () => {
    const resting = record(100, 20, { wheelAngle: { unit: "rad", of: (t) => Math.max(0, t - 10) }, carriagePosition: { unit: "m", of: (t) => Math.max(0, t - 10) } });
    expect(repeatedRows(resting, "drive")).toEqual([]);
  });
});
