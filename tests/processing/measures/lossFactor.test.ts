import { expect, test } from "vitest";
import { lossFactor } from "../../../src/processing/measures/lossFactor.ts";
import { agrees } from "../../helpers/agrees.ts";

test("the hysteretic damping example", () => {
  agrees(lossFactor(2.5, 0.5 * 50000 * 0.008 ** 2), { expected: 0.2486796, within: 5e-8, source: "S. S. Rao, Mechanical Vibrations, hysteretic-damping example (dW = 2.5 N·m, X = 8 mm, k = 50 kN/m), from memory" });
});

test("no stored energy is a wrong call", () => {
  expect(() => lossFactor(1, 0)).toThrow(/above zero/);
});
