import { expect, test } from "vitest";
import { demonstratedReliability, missionsNeeded, wheelsNeeded } from "../../src/models/zeroFailure.ts";
import { agrees } from "../helpers/agrees.ts";

const claim = { reliability: 0.9, confidence: 0.9 };

test("the usual table: 90 % with 90 %", () => {
  const source = "success-run table of reliability textbooks, from memory";
  agrees(wheelsNeeded(claim, 1, 2), { expected: 22, within: 0, source });
  agrees(wheelsNeeded({ reliability: 0.95, confidence: 0.95 }, 1, 2), { expected: 59, within: 0, source });
  agrees(wheelsNeeded({ reliability: 0.99, confidence: 0.9 }, 1, 2), { expected: 230, within: 0, source });
  agrees(missionsNeeded(claim, 1, 2), { expected: 4.7, within: 0.05, source: "√(ln 0.1 / ln 0.9) worked by hand" });
  agrees(missionsNeeded(claim, 4, 2), { expected: 2.3, within: 0.05, source: "√(ln 0.1 / (4 ln 0.9)) worked by hand" });
});

test("there and back", () => {
  for (const shape of [1, 2, 3.4]) {
    const lives = missionsNeeded(claim, 3, shape);
    expect(demonstratedReliability([lives, lives, lives], shape, 0.9)).toBeCloseTo(0.9, 12);
    expect(wheelsNeeded(claim, lives, shape)).toBe(3);
  }
});

test("wheels of different distance add up by their lives", () => {
  agrees(demonstratedReliability([1, 2], 2, 0.9), { expected: 0.1 ** 0.2, relative: 1e-12, source: "by hand: 1² + 2² = 5" });
});

test("wrong calls", () => {
  expect(() => demonstratedReliability([], 2, 0.9)).toThrow(/lives/);
  expect(() => demonstratedReliability([1], 2, 1)).toThrow(/confidence/);
  expect(() => wheelsNeeded({ reliability: 1, confidence: 0.9 }, 1, 2)).toThrow(/reliability/);
  expect(() => missionsNeeded(claim, 1.5, 2)).toThrow(/whole number/);
});
