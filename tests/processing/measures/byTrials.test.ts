import { expect, it } from "vitest";
import { combine, estimateFrom, toldAs } from "../../../src/core/estimate.ts";
import { byTrials, combinedByTrials } from "../../../src/processing/measures/byTrials.ts";
import { derive, toEstimate } from "../../../src/processing/measures/reading.ts";
import type { Reading } from "../../../src/processing/measures/reading.ts";
import { agrees } from "../../helpers/agrees.ts";
import { cause, steady } from "../readings.ts";

const ratio = (torqueNm: number, doubtNm: number): Reading<"1"> => derive([steady(2, "N"), steady(torqueNm, "N.m", [cause("zero of the torque", doubtNm)])], (pull = Number.NaN, torque = Number.NaN) => pull / torque, "1");

it("a ratio whose divisor is well known: the trials confirm the interval", () => {
  const reading = ratio(4, 0.02);
  const linear = toEstimate(reading, "R1", "pull over torque");
  const tried = byTrials(reading, linear);
  expect(tried.method).toMatch(/^pull over torque; \d+ trials confirm the interval$/);
  expect({ ...tried, method: "" }).toEqual({ ...linear, method: "" });
});

it("a divisor near zero: the trials give the interval, skewed as 1/x is", () => {
  const reading = ratio(0.2, 0.05);
  const { method } = byTrials(reading, toEstimate(reading, "R1", "pull over torque"));
  const [, low, high] = /95 % lie from ([\d.]+) to ([\d.]+), and/.exec(method) as unknown as [string, string, string];
  const source = "2/x of a normal x, worked by hand from its 97.5 % and 2.5 % points 0.2 ± 1.96 · 0.05";
  agrees(Number(low), { expected: 2 / (0.2 + 1.96 * 0.05), relative: 0.02, source });
  agrees(Number(high), { expected: 2 / (0.2 - 1.96 * 0.05), relative: 0.03, source });
});

it("a cause that both inputs share cancels in the trials as it does in the budget", () => {
  const reading = derive([steady(2, "N", [cause("gain", 0.2)]), steady(4, "N", [cause("gain", 0.4), cause("zero", 0.02)])], (a = Number.NaN, b = Number.NaN) => a / b, "1");
  expect(byTrials(reading, toEstimate(reading, "R1", "ratio")).method).toContain("confirm");
});

it("the same input gives the same words", () => {
  const reading = ratio(0.2, 0.05);
  const linear = toEstimate(reading, "R1", "ratio");
  expect(byTrials(reading, linear).method).toBe(byTrials(reading, linear).method);
});

it("a result without an uncertainty is left as it is", () => {
  const reading = { ...ratio(4, 0.02), perRevolution: [0.5] };
  const linear = toEstimate(reading, "R1", "ratio");
  expect(byTrials(reading, linear)).toBe(linear);
});

it("a result combined from others is tried through all of them, by whatever name it is told", () => {
  const height = estimateFrom(0.02, "m", "read", [cause("zero of the height", 0.002)]);
  const speed = combine([height], (h) => Math.sqrt(2 * 9.81 * Math.max(0, h)), "m/s", "√(2 g h)");
  const energy = combine([speed], (v) => 0.5 * 2 * v * v, "J", "½ m v²");
  // √ and square cancel: the energy is straight in the height, the speed is not
  expect(combinedByTrials(energy).method).toContain("trials confirm");
  const wide = combine([estimateFrom(0.02, "m", "read", [cause("zero of the height", 0.0099)])], (h) => Math.sqrt(2 * 9.81 * Math.max(0, h)), "m/s", "√(2 g h)");
  const { method } = combinedByTrials(toldAs(wide, "speed of the fall"));
  const [, low, high] = /95 % lie from ([\d.]+) to ([\d.]+), and/.exec(method) as unknown as [string, string, string];
  const source = "√ of a normal height, worked by hand from its 2.5 % and 97.5 % points 0.02 ± 1.96 · 0.0099";
  agrees(Number(low), { expected: Math.sqrt(2 * 9.81 * (0.02 - 1.96 * 0.0099)), within: 0.03, source });
  agrees(Number(high), { expected: Math.sqrt(2 * 9.81 * (0.02 + 1.96 * 0.0099)), relative: 0.02, source });
  expect(method).toMatch(/^speed of the fall;/);
});

it("a result that was read is left as it is", () => {
  const read = estimateFrom(3, "N", "read", [cause("gain", 0.1)]);
  expect(combinedByTrials(read)).toBe(read);
});
