import { describe, expect, it } from "vitest";
import { undetermined } from "../../../src/core/estimate.ts";
import { constantReading, derive, toEstimate } from "../../../src/processing/measures/reading.ts";
import { seededRandom } from "../../../src/numerics/random.ts";
import { agrees } from "../../helpers/agrees.ts";
import { cause, steady } from "../readings.ts";

describe("toEstimate", () => {
  it("takes the scatter from revolutions, not samples", () => {
    const estimate = toEstimate({ unit: "N", value: 10, perRevolution: [9, 10, 11], rows: [] }, "R1", "mean");
    agrees(estimate.standardUncertainty ?? NaN, { expected: 1 / Math.sqrt(3), within: 1e-12, source: "s/√n with s = 1, n = 3 (JCGM 100, 4.2.3)" });
    expect(estimate.degreesOfFreedom).toBeCloseTo(2, 9);
  });

  it("one revolution gives a value without an uncertainty, and says why", () => {
    const estimate = toEstimate({ unit: "N", value: 10, perRevolution: [10], rows: [] }, "R1", "mean");
    expect(estimate.standardUncertainty).toBeNull();
    expect(estimate.method).toContain("at least two whole revolutions");
  });

  it("revolutions that follow each other slowly count for fewer", () => {
    const rising = { unit: "N" as const, value: 5, perRevolution: [1, 2, 3, 4, 5, 6, 7, 8, 9], rows: [] };
    const mixed = { ...rising, perRevolution: [1, 9, 2, 8, 3, 7, 4, 6, 5] };
    expect(toEstimate(rising, "R1", "mean").standardUncertainty).toBeGreaterThan(1.3 * (toEstimate(mixed, "R1", "mean").standardUncertainty as number));
  });

  it("holds the true mean at the stated rate for independent revolutions", () => {
    let held = 0;
    const trials = 400;
    const random = seededRandom(3);
    for (let i = 0; i < trials; i++) {
      const perRevolution = Array.from({ length: 4 }, () => 10 + random.normal());
      const estimate = toEstimate({ unit: "N", value: perRevolution.reduce((a, b) => a + b, 0) / 4, perRevolution, rows: [] }, "R1", "mean");
      // t with 3 degrees of freedom, 97.5 %: 3.182 (printed in every t table)
      if (Math.abs(estimate.value - 10) <= 3.182 * (estimate.standardUncertainty as number)) held++;
    }
    // Binomial with p = 0.95: ± 3 standard deviations of 400 trials are ± 3.3 %.
    expect(held / trials).toBeGreaterThan(0.917);
    expect(held / trials).toBeLessThan(0.983);
  });
});

it("derive keeps the scatter of the function itself: a load ripple that the pull shares drops out of the ratio", () => {
  const load = { unit: "N" as const, value: 100, perRevolution: [90, 100, 110], rows: [] };
  const pull = { unit: "N" as const, value: 20, perRevolution: [18, 20, 22], rows: [] };
  const ratio = derive([pull, load], (a = 0, b = 1) => a / b, "1");
  for (const value of ratio.perRevolution) expect(value).toBeCloseTo(0.2, 12);
});

it("an undetermined constant makes no number", () => {
  const constant = constantReading(undetermined("m", "no hard-floor run"), 3);
  expect(derive([steady(1, "m/s", [cause("x", 0.1)]), constant], (v = 0, r = 1) => v / r, "1").value).toBeNaN();
});
