import { expect, test } from "vitest";
import { lossFactor } from "../../../src/processing/measures/lossFactor.ts";
import { agrees } from "../../helpers/agrees.ts";

test("the hysteretic damping example", () => {
  const [eta, source] = [lossFactor(2.5, 0.5 * 50000 * 0.008 ** 2), "S. S. Rao, Mechanical Vibrations, hysteretic-damping example, from memory: h = 12 433.95 N/m printed, 12 433.98 unrounded; δ = π β"];
  agrees(50000 * eta, { expected: 12433.98, within: 6e-3, source });
  agrees(Math.PI * eta, { expected: 0.78125, within: 1e-9, source });
  agrees(lossFactor(2.5, 0.5 * 50000 * 0.008 ** 2), { expected: 0.2486796, within: 5e-8, source: "S. S. Rao, Mechanical Vibrations, hysteretic-damping example (dW = 2.5 N·m, X = 8 mm, k = 50 kN/m), from memory" });
});

test("no stored energy is a wrong call", () => {
  expect(() => lossFactor(1, 0)).toThrow(/above zero/);
});
