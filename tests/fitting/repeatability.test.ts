import { expect, test } from "vitest";
import { conditionOf, repeatabilityFrom } from "../../src/fitting/repeatability.ts";
import { agrees } from "../helpers/agrees.ts";
import { plan } from "../helpers/pressRun.ts";
import { ownRow, runResult } from "../helpers/runResult.ts";

const run = (id: string, setSlip: number, value: number, rest = {}, wheel = "W1") => runResult(plan("traction", { id, wheel, setLoadN: 60, setSlip, setSpeedMps: 0.01 }), { pullCoefficient: { value, unit: "1", rows: [ownRow(0.01)] } }, rest);

test("pooled over the conditions that have repeats", () => {
  const all = [run("a", 0.2, 0.3), run("b", 0.2, 0.34), run("c", 0.4, 0.4), run("d", 0.4, 0.42), run("e", 0.4, 0.44), run("f", 0.6, 0.5), run("g", 0.2, 0.9, {}, "W2"), run("h", 0.2, 9, { verdict: "repeat" })];
  const [result] = repeatabilityFrom(all);
  // squares: 2 · 0.02² and 2 · 0.02², over 1 + 2 degrees of freedom
  expect(result?.degreesOfFreedom).toBe(3);
  expect(result?.pooledSd).toBeCloseTo(Math.sqrt((2 * 0.02 ** 2 + 2 * 0.02 ** 2) / 3), 12);
  expect(result?.conditions.map((condition) => [condition.wheel, condition.runs.join(" "), condition.sd === null])).toEqual([["W1", "a b", false], ["W1", "c d e", false], ["W1", "f", true], ["W2", "g", true]]);
  expect(result).toMatchObject({ measure: "pullCoefficient", unit: "1" });
});

test("no repeats, no scatter", () => {
  expect(repeatabilityFrom([run("a", 0.2, 0.3), run("b", 0.3, 0.34)])[0]?.pooledSd).toBeNull();
  expect(repeatabilityFrom([])).toEqual([]);
});

test("a condition is what was set", () => {
  expect(conditionOf(plan("drop", { dropHeightM: 0.1 }))).toBe("drop, 100 mm drop");
  expect(conditionOf(plan("traction", { setLoadN: 60, setSlip: 0.2, setSpeedMps: 0.01 }))).toBe("traction, 60 N, slip 0.2, 10 mm/s");
  expect(conditionOf(plan("plate", { plate: { shape: "circle", widthM: 0.05, lengthM: 0.05 } }))).toBe("plate, circle 50 × 50 mm");
});

test("from four repeated conditions on each has the scatter of its size; single runs too, and beyond the ends the end stands", () => {
  const pair = (setSlip: number, value: number, off: number): ReturnType<typeof run>[] => [run(`${setSlip}a`, setSlip, value - off), run(`${setSlip}b`, setSlip, value + off)];
  const [few] = repeatabilityFrom([...pair(0.1, 0.1, 0.001), ...pair(0.2, 0.2, 0.002), ...pair(0.3, 0.4, 0.004)]);
  expect(new Set(few?.conditions.map(({ scatter }) => scatter?.sd)).size).toBe(1);
  const [many] = repeatabilityFrom([...pair(0.1, 0.1, 0.001), ...pair(0.2, 0.2, 0.002), ...pair(0.3, 0.4, 0.004), ...pair(0.4, 0.8, 0.008), run("c", 0.5, 0.4), run("d", 0.6, 3)]);
  const source = "sd in proportion to the value: a half-difference off has the sd √2 off, by hand";
  const scatters = many?.conditions.map(({ scatter }) => scatter?.sd as number) ?? [];
  [0.001, 0.002, 0.004, 0.008, 0.004, 0.008].forEach((off, i) => agrees(scatters[i] as number, { expected: Math.SQRT2 * off, relative: 1e-6, source }));
  const freedoms = many?.conditions.map(({ scatter }) => scatter?.degreesOfFreedom as number) ?? [];
  expect(Math.max(...freedoms)).toBeLessThan(4);
  expect(freedoms[0]).toBeLessThan(freedoms[1] as number);
});

test("values of both signs: scatter changes with the value itself", () => {
  const values = [-0.1, 0, 0.1, 0.2];
  const [result] = repeatabilityFrom(values.flatMap((value, i) => [run(`${i}a`, i, value - 0.001 * 2 ** i), run(`${i}b`, i, value + 0.001 * 2 ** i)]));
  result?.conditions.forEach(({ scatter }, i) => agrees(scatter?.sd as number, { expected: Math.SQRT2 * 0.001 * 2 ** i, relative: 1e-6, source: "sd doubled from step to step of equal length, by hand" }));
});
