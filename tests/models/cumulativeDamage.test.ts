import { expect, test } from "vitest";
import { cumulativeDamage, equivalentRange } from "../../src/models/cumulativeDamage.ts";
import { rainflowCycles } from "../../src/numerics/rainflow.ts";
import { agrees } from "../helpers/agrees.ts";

const line = { atRange: 100, cyclesToFailure: 1e6, exponent: 3, cutOffRange: null };

test("by hand: half the range costs an eighth", () => {
  const source = "Palmgren–Miner sum worked by hand";
  agrees(cumulativeDamage([{ range: 100, cycles: 1e5 }, { range: 50, cycles: 8e5 }, { range: 200, cycles: 1e4 }], line), { expected: 0.1 + 0.1 + 0.08, relative: 1e-12, source });
  expect(cumulativeDamage([{ range: 50, cycles: 8e5 }], { ...line, cutOffRange: 60 })).toBe(0);
  expect(cumulativeDamage([], line)).toBe(0);
});

test("the equivalent range does the damage of the whole load history", () => {
  const blocks = rainflowCycles([-2, 1, -3, 5, -1, 3, -4, 4, -2], 0).map(({ range, count }) => ({ range, cycles: count }));
  // ASTM E1049 example: 0.5·3³ + 1.5·4³ + 0.5·6³ + 1·8³ + 0.5·9³ = 1094
  agrees(equivalentRange(blocks, 3, 1) ** 3, { expected: 1094, relative: 1e-12, source: "cycles of the worked example of ASTM E1049 (from memory), summed by hand" });
  expect(cumulativeDamage([{ range: equivalentRange(blocks, 3, 10), cycles: 10 }], line)).toBeCloseTo(cumulativeDamage(blocks, line), 15);
});

test("wrong calls", () => {
  expect(() => cumulativeDamage([], { ...line, exponent: 0 })).toThrow(/above 0/);
  expect(() => equivalentRange([], 3, 0)).toThrow(/above 0/);
});
