import { expect, test } from "vitest";
import { lifeFit } from "../../src/fitting/lifeFit.ts";
import { handbookLives } from "../numerics/handbookLives.ts";
import { agrees } from "../helpers/agrees.ts";

const lives = handbookLives.map(({ value, failed }, i) => ({ wheel: `W${i}`, distanceM: value, failed }));

test("ten of twenty units failed: shape, scale, life of nine in ten", () => {
  const { fit, b10, b10Interval, survival } = lifeFit(lives);
  const source = "NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1.3";
  agrees(fit.parameters[0]?.estimate.value ?? Number.NaN, { expected: 1.7208, within: 5e-5, source });
  agrees(fit.parameters[1]?.estimate.value ?? Number.NaN, { expected: 606.528, within: 5e-4, source });
  agrees(b10.value, { expected: 164.023, within: 0.0065, source: "η (−ln 0.9)^(1/β) of those rounded constants, worked by hand" });
  agrees((fit.parameters[0]?.estimate.standardUncertainty ?? Number.NaN) / 1.7208, { expected: 0.291813, relative: 1e-4, source: "observed information of the same data, worked with SciPy 1.10" });
  expect(survival.map(({ share }) => Number(share.toFixed(12)))).toEqual([0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6, 0.55, 0.5]);
  expect(Math.sqrt((b10Interval?.low ?? 0) * (b10Interval?.high ?? 0))).toBeCloseTo(b10.value, 6);
  expect(fit).toMatchObject({ verdict: "determined", findings: [] });
});

test("the doubt of the life of nine in ten is that of moved constants", () => {
  const { fit, b10 } = lifeFit(lives);
  const [shape, scale] = fit.parameters.map((one) => one.estimate.value) as [number, number];
  const at = (s: number, e: number): number => e * (-Math.log(0.9)) ** (1 / s);
  const slopes = [(at(shape + 1e-5, scale) - at(shape - 1e-5, scale)) / 2e-5, (at(shape, scale + 1e-3) - at(shape, scale - 1e-3)) / 2e-3];
  const variance = slopes.reduce((sum, a, i) => sum + slopes.reduce((inner, b, j) => inner + a * b * ((fit.covariance[i] as readonly number[])[j] as number), 0), 0);
  agrees(b10.standardUncertainty ?? Number.NaN, { expected: Math.sqrt(variance), relative: 1e-6, source: "JCGM 100:2008, 5.2.2 with numeric slopes" });
});

test("fewer than two failures say nothing of the distribution", () => {
  const one = lifeFit([{ wheel: "W1", distanceM: 10, failed: true }, { wheel: "W2", distanceM: 20, failed: false }, { wheel: "W3", distanceM: 0, failed: false }]);
  expect(one.fit).toMatchObject({ verdict: "undetermined", parameters: [] });
  expect(one.fit.sentence).toContain("1 of 2 wheels failed");
  expect([one.b10.standardUncertainty, one.b10Interval]).toEqual([null, null]);
  expect(one.survival).toEqual([{ distanceM: 10, share: 0.5 }]);
  expect(one.fit.points[2]).toMatchObject({ kept: false, reason: "has not run" });
  expect(lifeFit([]).fit.verdict).toBe("undetermined");
});

test("few failures are pointed out", () => {
  const few = lifeFit([3, 5, 8].map((distanceM, i) => ({ wheel: `W${i}`, distanceM, failed: true })));
  expect(few.fit.findings.map((one) => one.code)).toEqual(["few-failures"]);
});
