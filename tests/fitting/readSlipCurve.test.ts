import { describe, expect, test } from "vitest";
import { bandSlips, constantsOf, curveAtSlip, curveBand, slipAtValue, slipRange } from "../../src/fitting/readSlipCurve.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { agrees } from "../helpers/agrees.ts";
import { curveOf, exact, made, truth } from "./slipPoints.ts";

const curve = curveOf(exact(truth));

describe("the value at a slip", () => {
  test("is the curve's, and none beyond the slips measured", () => {
    expect(curveAtSlip(curve, 0.33).value).toBeCloseTo(truth(0.33), 7);
    const outside = curveAtSlip(curve, 0.65);
    expect(outside.standardUncertainty).toBeNull();
    expect(outside.value).toBeNaN();
    expect(outside.method).toContain("outside the slips measured");
    expect(curveAtSlip(curve, 0.605).method).toContain("0.0050 beyond");
    expect(slipRange(curve)).toEqual([0, 0.6]);
    expect(constantsOf(curve)).toHaveLength(3);
  });
});

describe("the slip at a value", () => {
  test("is where the curve reaches it", () => {
    agrees(slipAtValue(curve, 0, "a pull").value, { expected: -0.18 * Math.log(1 - 0.12 / 0.45), within: 1e-7, source: "the made curve solved for slip by hand: s = −B ln(1 − C/A)" });
    agrees(slipAtValue(curve, 0.2, "a pull").value, { expected: -0.18 * Math.log(1 - 0.32 / 0.45), within: 1e-7, source: "the made curve solved for slip by hand" });
  });

  test("moves with the curve by the inverse of its slope", () => {
    const noisy = curveOf(made(3, 3, 0.004, 0.01));
    const slip = slipAtValue(noisy, 0.2, "a pull");
    const pull = curveAtSlip(noisy, slip.value);
    expect(pull.value).toBeCloseTo(0.2, 9);
    const steepness = (curveAtSlip(noisy, slip.value + 1e-4).value - curveAtSlip(noisy, slip.value - 1e-4).value) / 2e-4;
    expect(slip.standardUncertainty).toBeCloseTo((pull.standardUncertainty as number) / steepness, 6);
  });

  test("is not determined where the curve never gets there", () => {
    expect(slipAtValue(curve, 0.5, "a pull coefficient")).toMatchObject({ standardUncertainty: null });
    expect(slipAtValue(curve, 0.5, "a pull coefficient").method).toContain("does not rise through a pull coefficient of 0.5");
  });

  // 150 made campaigns: binomial sd of a 95 % coverage 1.8 %
  test("holds the truth as often as its interval says", () => {
    let held = 0;
    const real = -0.18 * Math.log(1 - 0.32 / 0.45);
    for (let seed = 1; seed <= 150; seed++) {
      const { value, standardUncertainty, degreesOfFreedom } = slipAtValue(curveOf(made(seed, 2, 0.004, 0.008)), 0.2, "a pull");
      if (Math.abs(value - real) <= studentTQuantile(0.975, degreesOfFreedom) * (standardUncertainty ?? 0)) held++;
    }
    expect(held / 150).toBeGreaterThanOrEqual(0.905);
    expect(held / 150).toBeLessThanOrEqual(0.99);
  }, 60_000);
});

test("the band goes from the least to the greatest slip and holds its own curve", () => {
  const noisy = curveOf(made(2, 3, 0.004, 0.012));
  const band = curveBand(noisy);
  expect(band?.x).toEqual(bandSlips(noisy));
  expect(band?.x.length).toBe(61);
  band?.value.forEach((value, i) => {
    expect(band.low[i]).toBeLessThan(value);
    expect(band.high[i]).toBeGreaterThan(value);
  });
});
