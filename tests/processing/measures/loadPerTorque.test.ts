import { expect, test } from "vitest";
import { loadPerTorque } from "../../../src/processing/measures/loadPerTorque.ts";
import { agrees } from "../../helpers/agrees.ts";

const torque = Array.from({ length: 3 }, (_, turn) => Array.from({ length: 24 }, (__, i) => 2 + 0.3 * Math.sin(i + turn)));

test("an arm of 0.5 m turns a newton metre into two newtons", () => {
  const load = torque.map((row) => row.map((t) => 60 + 2 * t));
  const found = loadPerTorque(load, torque);
  agrees(found?.slope.value ?? 0, { expected: 2, within: 1e-9, source: "lever: ΔW = T/L, L = 0.5 m" });
  agrees(found?.correlation.value ?? 0, { expected: 1, within: 1e-9, source: "exact straight line" });
  expect(found?.slope.perRevolution).toHaveLength(3);
});

test("the correlation has the slope's sign, and none is zero", () => {
  expect(loadPerTorque(torque.map((row) => row.map((t) => 60 - t)), torque)?.correlation.value).toBeCloseTo(-1, 9);
  expect(loadPerTorque(torque.map((row) => row.map(() => 60)), torque)?.correlation.value).toBe(0);
});

test("no torque ripple, or too few steps, say nothing", () => {
  expect(loadPerTorque(torque, torque.map((row) => row.map(() => 2)))).toBeNull();
  expect(loadPerTorque(torque.map((row) => row.map((w, i) => (i < 7 ? w : Number.NaN))), torque)).toBeNull();
});
