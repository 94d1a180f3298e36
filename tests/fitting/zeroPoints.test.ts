import { expect, test } from "vitest";
import { selfPropelledPoint, towedPoint } from "../../src/fitting/zeroPoints.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { agrees } from "../helpers/agrees.ts";
import { curveOf, exact, grossTruth, made, setSlips, truth } from "./slipPoints.ts";

const slips = [-0.4, -0.2, -0.1, -0.05, ...setSlips];
const odd = (rise: number, scale: number, level: number) => (slip: number): number => Math.sign(slip) * rise * (1 - Math.exp(-Math.abs(slip) / scale)) + level;
const pullBoth = odd(0.45, 0.18, -0.12);
const grossBoth = odd(0.5, 0.15, 0.03);
// G = 0 on the braked side: 0.5 (1 − e^(s/0.15)) = 0.03
const towedSlip = 0.15 * Math.log(1 - 0.03 / 0.5);

test("the self-propelled slip is where the pull passes zero", () => {
  agrees(selfPropelledPoint(curveOf(exact(truth))).value, { expected: -0.18 * Math.log(1 - 0.12 / 0.45), within: 1e-7, source: "the made curve solved by hand" });
});

test("the towed point is read where the torque passes zero, on the braked side", () => {
  const towed = towedPoint(curveOf(exact(pullBoth, slips)), curveOf(exact(grossBoth, slips), "saturating", "T/(rW)"));
  agrees(towed.slip.value, { expected: towedSlip, within: 1e-6, source: "the made torque curve solved by hand" });
  agrees(towed.pull.value, { expected: pullBoth(towedSlip), within: 1e-6, source: "the made pull curve at that slip" });
});

test("a wheel that was only driven shows no towed point", () => {
  const driven = setSlips.slice(1);
  const towed = towedPoint(curveOf(exact(truth, driven)), curveOf(exact(grossTruth, driven), "saturating", "T/(rW)"));
  expect(towed.slip.standardUncertainty).toBeNull();
  expect(towed.pull.method).toContain("does not rise through a gross traction ratio of 0");
});

// 100 made campaigns, scatter of pull and torque independent as the budget says: binomial sd 1.5 %
test("its intervals hold the truth as often as they say", () => {
  const held = { slip: 0, pull: 0 };
  for (let seed = 1; seed <= 100; seed++) {
    const towed = towedPoint(curveOf(made(seed, 2, 0.003, 0.006, pullBoth, slips)), curveOf(made(seed + 5000, 2, 0.003, 0.006, grossBoth, slips), "saturating", "T/(rW)"));
    for (const [name, real] of [["slip", towedSlip], ["pull", pullBoth(towedSlip)]] as const) {
      const { value, standardUncertainty, degreesOfFreedom } = towed[name];
      if (Math.abs(value - real) <= studentTQuantile(0.975, degreesOfFreedom) * (standardUncertainty ?? 0)) held[name]++;
    }
  }
  for (const count of Object.values(held)) {
    expect(count / 100).toBeGreaterThanOrEqual(0.89);
    expect(count / 100).toBeLessThanOrEqual(1);
  }
}, 60_000);
