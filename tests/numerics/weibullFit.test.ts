import { describe, expect, test } from "vitest";
import { seededRandom } from "../../src/numerics/random.ts";
import { logGamma } from "../../src/numerics/specialFunctions.ts";
import { weibullFit } from "../../src/numerics/weibullFit.ts";
import { agrees } from "../helpers/agrees.ts";
import { handbookLives } from "./handbookLives.ts";
import { scipyNumbers, scipySource } from "./scipyReference.ts";

const handbook = "NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1.3 (page seen)";

describe("handbook example: ten failures, ten units still running at 500 h", () => {
  const fit = weibullFit(handbookLives);

  test("shape, scale and likelihood as printed", () => {
    agrees(fit?.shape ?? Number.NaN, { expected: 1.7208, within: 5e-5, source: handbook });
    agrees(fit?.scale ?? Number.NaN, { expected: 606.528, within: 5e-4, source: handbook });
    agrees(fit?.logLikelihood ?? Number.NaN, { expected: -75.135, within: 5e-4, source: `${handbook}; the stored page drops the minus sign` });
  });

  test("mean, standard deviation and the intervals on the logarithmic scale", () => {
    const { shape, scale, logShapeError, logScaleError, correlation, logLikelihood } = fit as NonNullable<typeof fit>;
    const worked = `${handbook}, data; mean, deviation and observed information worked by an independent program`;
    const gamma = (x: number): number => Math.exp(logGamma(x));
    agrees(scale * gamma(1 + 1 / shape), { expected: 540.737, within: 1e-3, source: worked });
    agrees(scale * Math.sqrt(gamma(1 + 2 / shape) - gamma(1 + 1 / shape) ** 2), { expected: 323.806, within: 1e-3, source: worked });
    agrees(4 - 2 * logLikelihood, { expected: 154.27, within: 5e-3, source: `${handbook}, Akaike's number of two constants` });
    agrees(correlation, { expected: -0.4514, within: 2e-4, source: worked });
    for (const [value, error, low, high, within] of [[shape, logShapeError, 0.9713, 3.0487, 1e-3], [scale, logScaleError, 405.09, 908.13, 0.1]] as const) {
      agrees(value * Math.exp(-1.959964 * error), { expected: low, within, source: worked });
      agrees(value * Math.exp(1.959964 * error), { expected: high, within, source: worked });
    }
  });

  test("standard errors from the curvature of the likelihood, by SciPy", () => {
    const [logShapeError, logScaleError, correlation] = scipyNumbers([["weibull_errors", [handbookLives.map((life) => life.value), handbookLives.map((life) => life.failed)]]])[0] as unknown as [number, number, number];
    agrees(fit?.logShapeError ?? Number.NaN, { expected: logShapeError, relative: 1e-4, source: scipySource });
    agrees(fit?.logScaleError ?? Number.NaN, { expected: logScaleError, relative: 1e-4, source: scipySource });
    agrees(fit?.correlation ?? Number.NaN, { expected: correlation, relative: 1e-3, source: scipySource });
  });
});

test("the unit of the lives does not matter", () => {
  const inSeconds = weibullFit(handbookLives.map((life) => ({ ...life, value: 3600 * life.value })));
  expect(inSeconds?.shape).toBeCloseTo(weibullFit(handbookLives)?.shape ?? 0, 12);
  expect((inSeconds?.scale ?? 0) / 3600).toBeCloseTo(weibullFit(handbookLives)?.scale ?? 0, 8);
});

test("comes back from drawn lives, censoring included", () => {
  const random = seededRandom(4);
  const lives = Array.from({ length: 20_000 }, () => 1000 * (-Math.log(random.uniform())) ** (1 / 2.5)).map((value) => ({ value: Math.min(value, 1100), failed: value < 1100 }));
  const fit = weibullFit(lives);
  expect(Math.abs(Math.log((fit?.shape ?? 0) / 2.5)) / (fit?.logShapeError ?? 0)).toBeLessThan(3);
  expect(Math.abs(Math.log((fit?.scale ?? 0) / 1000)) / (fit?.logScaleError ?? 0)).toBeLessThan(3);
});

test("without two different failures there is no shape", () => {
  expect(weibullFit([])).toBeNull();
  expect(weibullFit([{ value: 3, failed: true }, { value: 5, failed: false }])).toBeNull();
  expect(weibullFit([{ value: 3, failed: true }, { value: 3, failed: true }])).toBeNull();
});

test("wrong call", () => expect(() => weibullFit([{ value: 0, failed: true }])).toThrow(RangeError));
