import { expect, it } from "vitest";
import { byTrials } from "../../../src/processing/measures/byTrials.ts";
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
