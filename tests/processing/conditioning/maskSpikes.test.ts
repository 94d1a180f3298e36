import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalQuantile } from "../../../src/numerics/distributions.ts";
import { median } from "../../../src/numerics/statistics.ts";
import { seededRandom } from "../../../src/numerics/random.ts";
import { maskSpikes, middleOfSeven, spikesOf } from "../../../src/processing/conditioning/maskSpikes.ts";
import { agrees } from "../../helpers/agrees.ts";
import { record, rigWith } from "../recordings.ts";

const noise = (i: number): number => 0.1 * Math.sin(0.7 * i * i + i);
const wild = [300, 700, 701, 1200];

test("the textbook's nine samples: the middle of seven at the wild one", () => {
  const source = "R. K. Pearson 1999, filter of running medians, definition as R package pracma documents it; worked by hand: m = 1.0, scaled deviation 0.07413";
  // three on either side of the wild one of 1, 1.1, 0.9, 1, 9, 1.05, 0.95, 1, 1.1
  const around = [1.1, 0.9, 1, 9, 1.05, 0.95, 1] as const;
  const middle = middleOfSeven(...around);
  agrees(middle, { expected: 1, within: 1e-12, source });
  agrees(median(around.map((value) => Math.abs(value - middle))) / normalQuantile(0.75), { expected: 0.07413, within: 5e-6, source });
});

describe("wild single samples", () => {
  const recording = record(100, 20, {
    drawbarPull: { unit: "N", of: (t, i) => 10 + Math.sin(70 * t) + noise(i) + (wild.includes(i) ? 40 : 0) },
    sync: { unit: "V", of: (_, i) => (wild.includes(i) ? 5 : 0) },
    verticalLoad: { unit: "N", of: (t, i) => (t < 5 ? 0 : 60) + noise(i) },
  });
  const masked = maskSpikes(recording, rigWith());

  test("are counted, named and made missing; nothing is put in their place", () => {
    expect(masked.findings.map((one) => `${one.code} ${one.severity} ${one.channel}`)).toEqual(["spikes look drawbarPull"]);
    expect(masked.findings[0]).toMatchObject({ fromS: 3, toS: 12, measured: 4 / 2001 });
    const samples = masked.recording.channels[0]?.samples ?? [];
    expect(wild.every((i) => Number.isNaN(samples[i]))).toBe(true);
    expect(Array.from(samples).filter((value, i) => value !== recording.channels[0]?.samples[i])).toHaveLength(wild.length);
    expect(masked.recording.history.at(-1)).toMatchObject({ name: "maskSpikes", parameters: { drawbarPull: 4 } });
  });

  test("the recording handed in stays as it was, and so do steps and switch lines", () => {
    expect(recording.channels[0]?.samples[300]).toBeGreaterThan(40);
    expect(masked.recording.channels[1]).toBe(recording.channels[1]);
    expect(masked.recording.channels[2]).toBe(recording.channels[2]);
  });

  test("more than a hundredth of them spoils the run", () => {
    const many = record(100, 20, { drawbarPull: { unit: "N", of: (_, i) => noise(i) + (i % 40 === 7 ? 30 : 0) } });
    expect(maskSpikes(many, rigWith()).findings[0]).toMatchObject({ code: "spikes", severity: "reject" });
  });

  test.each([
    ["nothing", []],
    ["a constant", new Array<number>(200).fill(3)],
    ["missing samples only", new Array<number>(200).fill(NaN)],
    ["a ramp", Array.from({ length: 200 }, (_, i) => 0.5 * i)],
    ["a coarse ripple of four samples a wave", Array.from({ length: 400 }, (_, i) => Math.sin((Math.PI / 2) * i + 0.3))],
  ])("%s holds no spike", (_, samples) => expect(spikesOf(Float64Array.from(samples))).toEqual([]));
});

test("a fast ramp between two rests, with a little noise: nothing is a spike", () => {
  const random = seededRandom(5);
  const position = Float64Array.from({ length: 1000 }, (_, i) => 0.005 * Math.min(Math.max(i - 200, 0), 600) + 1e-4 * (random.uniform() - 0.5));
  expect(spikesOf(position)).toEqual([]);
});

test("the exchanges give the middle of any seven", () => {
  fc.assert(fc.property(fc.array(fc.double({ noNaN: true }), { minLength: 7, maxLength: 7 }), (values) => middleOfSeven(...(values as [number, number, number, number, number, number, number])) === [...values].sort((a, b) => a - b)[3]));
});
