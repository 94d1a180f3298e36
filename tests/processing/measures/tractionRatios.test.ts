import { expect, it } from "vitest";
import { energyPerDistance } from "../../../src/processing/measures/energyPerDistance.ts";
import { grossTractionRatio } from "../../../src/processing/measures/grossTractionRatio.ts";
import { motionResistanceRatio } from "../../../src/processing/measures/motionResistanceRatio.ts";
import { powerNumber } from "../../../src/processing/measures/powerNumber.ts";
import { pullCoefficient } from "../../../src/processing/measures/pullCoefficient.ts";
import { tractiveEfficiency } from "../../../src/processing/measures/tractiveEfficiency.ts";
import { agrees } from "../../helpers/agrees.ts";
import { cause, steady } from "../readings.ts";

const source = "ASABE S296 definitions (from memory), arithmetic on W 64.7 N, NT 12 N, T 2.10 N·m, ω 0.5 rad/s, r 0.09 m, v 0.036 m/s";
const load = steady(64.7, "N");
const pull = steady(12, "N");
const torque = steady(2.1, "N.m");
const turning = steady(0.5, "rad/s");
const radius = steady(0.09, "m");
const speed = steady(0.036, "m/s");

it("one data point gives all ratios", () => {
  agrees(pullCoefficient(pull, load).value, { expected: 0.185471, within: 1e-6, source });
  agrees(grossTractionRatio(torque, radius, load).value, { expected: 0.360639, within: 1e-6, source });
  agrees(motionResistanceRatio(torque, radius, pull, load).value, { expected: 0.175167, within: 1e-6, source });
  agrees(tractiveEfficiency(pull, speed, torque, turning).value, { expected: 0.411429, within: 1e-6, source });
  agrees(powerNumber(torque, turning, load, speed).value, { expected: 0.450799, within: 1e-6, source });
});

it("efficiency is pull coefficient over power number, and (NT/GT)(1 − s)", () => {
  const efficiency = tractiveEfficiency(pull, speed, torque, turning).value;
  agrees(pullCoefficient(pull, load).value / powerNumber(torque, turning, load, speed).value, { expected: efficiency, within: 1e-12, source: "identity TE = NTR / PN" });
  agrees((12 / (2.1 / 0.09)) * (1 - 0.2), { expected: efficiency, within: 1e-12, source: "identity TE = (NT/GT)(1 − s)" });
});

it("energy per distance is torque times turns per metre", () => {
  agrees(energyPerDistance(torque, turning, speed).value, { expected: (2.1 * 0.5) / 0.036, within: 1e-9, source: "work of a torque: T·dθ per dx" });
});

it("a gain error shared by pull and load cancels in their ratio, one of pull alone does not", () => {
  const both = pullCoefficient(steady(12, "N", [cause("cell", 0.12)]), steady(64.7, "N", [cause("cell", 0.647)]));
  expect(both.rows.reduce((sum, row) => sum + Math.abs(row.effect), 0)).toBeLessThan(1e-6);
  const alone = pullCoefficient(steady(12, "N", [cause("cell", 0.12)]), load);
  agrees(alone.rows[0]?.effect ?? 0, { expected: 0.12 / 64.7, relative: 1e-4, source: "first-order propagation" });
});
