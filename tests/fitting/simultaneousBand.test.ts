import { describe, expect, test } from "vitest";
import { curveAtSlip, curveBand } from "../../src/fitting/readSlipCurve.ts";
import { simultaneousBand } from "../../src/fitting/simultaneousBand.ts";
import { fQuantile } from "../../src/numerics/distributions.ts";
import type { Band } from "../../src/processing/dayResult.ts";
import { curveOf, exact, made, point, truth } from "./slipPoints.ts";
import { sharedRow } from "../helpers/runResult.ts";

const width = (band: Band, i: number): number => (band.high[i] as number) - (band.low[i] as number);

describe("the band for the whole curve", () => {
  test("is wider than the pointwise one and narrower than Scheffé's", () => {
    const curve = curveOf(made(4, 3, 0.004, 0.012));
    const [whole, pointwise] = [simultaneousBand(curve) as Band, curveBand(curve) as Band];
    const { standardUncertainty: u, degreesOfFreedom } = curveAtSlip(curve, whole.x[0] as number);
    const scheffe = Math.sqrt(3 * fQuantile(0.95, 3, degreesOfFreedom));
    whole.x.forEach((slip, i) => {
      expect(width(whole, i), String(slip)).toBeGreaterThan(1.05 * width(pointwise, i));
    });
    expect(width(whole, 0) / 2).toBeLessThan(scheffe * (u as number));
    const factor = width(whole, 30) / width(pointwise, 30);
    expect(factor).toBeCloseTo(width(whole, 5) / width(pointwise, 5), 1);
  });

  test("with one shared cause alone it is the pointwise one: the whole curve moves together", () => {
    const points = exact(truth).map(({ run, slip, value }) => point(run, slip.value, value.value, 1e-5, [sharedRow(0.02, "gain")], slip.value));
    const curve = curveOf(points);
    const [whole, pointwise] = [simultaneousBand(curve) as Band, curveBand(curve) as Band];
    // 2000 draws fix the 95 % point of |normal| to about 2 %
    expect(width(whole, 30) / width(pointwise, 30)).toBeGreaterThan(0.94);
    expect(width(whole, 30) / width(pointwise, 30)).toBeLessThan(1.06);
  });

  // 120 made campaigns: binomial sd of a 95 % coverage 2 %; the fit's own bend makes a few per cent
  test("holds the whole truth as often as it says, which the pointwise one does not", () => {
    let whole = 0;
    let pointwise = 0;
    const trials = 120;
    for (let seed = 1; seed <= trials; seed++) {
      const curve = curveOf(made(seed, 2, 0.004, 0.012));
      const inside = (band: Band | null): boolean => band !== null && band.x.every((slip, i) => (band.low[i] as number) <= truth(slip) && truth(slip) <= (band.high[i] as number));
      if (inside(simultaneousBand(curve))) whole++;
      if (inside(curveBand(curve))) pointwise++;
    }
    expect(whole / trials).toBeGreaterThanOrEqual(0.9);
    expect(whole / trials).toBeLessThanOrEqual(0.99);
    expect(pointwise).toBeLessThan(whole - 3);
  }, 60_000);

  test("there is none without a curve", () => expect(simultaneousBand(curveOf(exact(truth, [0.1, 0.2])))).toBeNull());
});
