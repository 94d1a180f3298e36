import { describe, expect, test } from "vitest";
import { restitutionAt, restitutionBand, restitutionFit } from "../../src/fitting/restitutionFit.ts";
import type { RestitutionPoint } from "../../src/fitting/restitutionFit.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";
import { madeEstimate } from "../helpers/madeContact.ts";

function points(curve: (speed: number) => number, noise: number, seed = 1, speeds: readonly number[] = [0.7, 1, 1.4, 2]): RestitutionPoint[] {
  const random = seededRandom(seed);
  return speeds.flatMap((speed) => [1, 2, 3].map((repeat): RestitutionPoint => ({ run: `D${speed}-${repeat}`, heightM: speed ** 2 / 19.62, speed: madeEstimate(speed, "m/s", `speed ${speed} ${repeat}`, 1e-5, 0.01), restitution: madeEstimate(curve(speed) * (1 + noise * random.normal()), "1", `e ${speed} ${repeat}`, Math.max(noise, 1e-4)) })));
}

describe("a power law comes back", () => {
  const fit = restitutionFit(points((v) => 0.6 * v ** -0.25, 0), []);
  const source = "the curve e = 0.6 v^(−1/4) put in by this test";
  test("without noise", () => {
    expect(fit.verdict).toBe("determined");
    agrees(fit.parameters[0]?.estimate.value ?? Number.NaN, { expected: 0.6, within: 1e-9, source });
    agrees(fit.parameters[1]?.estimate.value ?? Number.NaN, { expected: 0.25, within: 1e-9, source });
    agrees(restitutionAt(fit, 1.2).value, { expected: 0.6 * 1.2 ** -0.25, within: 1e-9, source });
    expect(fit.sentence).toContain("falls");
    expect(fit.sentence).toContain("15.9 %");
  });
  test("a gain of the speed that all drops share moves e₁ by q times itself, and not q", () => {
    agrees(Math.abs(fit.parameters[0]?.estimate.budget.find((row) => row.sharedBy !== null)?.effect ?? 0), { expected: 0.6 * 0.25 * 0.01, relative: 1e-6, source: "d ln e₁ = q d ln v, by hand" });
    expect(fit.parameters[1]?.estimate.budget.filter((row) => row.sharedBy !== null)).toEqual([]);
  });
  test("its band spans the speeds measured", () => {
    const band = restitutionBand(restitutionFit(points((v) => 0.6 * v ** -0.25, 0.01), []));
    expect(band?.x[0]).toBe(0.7);
    expect(band?.x.at(-1)).toBe(2);
    band?.value.forEach((value, i) => expect((band.low[i] as number) < value && value < (band.high[i] as number)).toBe(true));
  });
});

test("noise: both constants inside their intervals nineteen times of twenty", () => {
  let inside = 0;
  for (let seed = 1; seed <= 100; seed++) {
    const { parameters } = restitutionFit(points((v) => 0.6 * v ** -0.1, 0.01, seed), []);
    const q = parameters[1]?.estimate;
    if (Math.abs((q?.value ?? 0) - 0.1) <= 2.23 * (q?.standardUncertainty ?? 0)) inside++;
  }
  // 100 of chance 0.95: three standard deviations of a binomial below.
  expect(inside).toBeGreaterThanOrEqual(88);
});

test("no change with the speed is said so", () => {
  expect(restitutionFit(points(() => 0.7, 0.01), []).sentence).toContain("No change");
});

test("heights off the curve are looked at; a power law is not", () => {
  const codes = (curve: (v: number) => number) => restitutionFit(points(curve, 0.002), []).findings.map((one) => one.code);
  expect(codes((v) => 0.6 + 0.1 * (v - 1.3) ** 2)).toEqual(["restitution-off-curve"]);
  expect(codes((v) => 0.6 * v ** -0.2)).toEqual([]);
});

test("two heights are not enough; refused drops are carried", () => {
  const refused = [{ run: "X", x: 1, y: 0.5, yUncertainty: null, kept: false, reason: "clipped" }];
  const fit = restitutionFit(points((v) => v, 0, 1, [1, 2]), refused);
  expect(fit.verdict).toBe("undetermined");
  expect(fit.points.at(-1)).toEqual(refused[0]);
  expect(restitutionBand(fit)).toBeNull();
});
