import { describe, expect, test } from "vitest";
import { logisticAt, logisticFit, logisticInterval } from "../../src/numerics/logisticFit.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";
import { scipy, scipySource } from "./scipyReference.ts";

// Launches before January 1986: temperature [°F] and whether a seal was damaged.
const temperature = [53, 57, 58, 63, 66, 67, 67, 67, 68, 69, 70, 70, 70, 70, 72, 73, 75, 75, 76, 76, 78, 79, 81];
const damaged = [1, 1, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 0, 0, 0, 1, 0, 0, 0, 0, 0].map(Boolean);
const textbookTemperature = [53, 56, 57, 63, 66, 67, 67, 67, 68, 69, 70, 70, 70, 70, 72, 73, 75, 75, 76, 76, 78, 79, 80, 81];
const textbookFailure = [1, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0].map(Boolean);

describe("published fits", () => {
  test("23 launches", () => {
    const fit = logisticFit(temperature, damaged);
    const source = "Dalal, Fowlkes & Hoadley, JASA 84 (1989) 945, data; R summary(glm) printed in a university's statistics notebook (byuistats.github.io, Challenger example): coefficients and standard errors seen";
    agrees(fit.intercept, { expected: 15.0429, within: 5e-5, source });
    agrees(fit.slope, { expected: -0.2322, within: 5e-5, source });
    agrees(Math.sqrt(fit.covariance[0][0]), { expected: 7.3786, within: 5e-5, source });
    agrees(Math.sqrt(fit.covariance[1][1]), { expected: 0.1082, within: 5e-5, source });
  });

  test("24 launches of a textbook", () => {
    const fit = logisticFit(textbookTemperature, textbookFailure);
    const source = "Montgomery & Runger, Applied Statistics and Probability for Engineers, 3rd ed., section 11-9: data and regression table seen (signs of slope and log-likelihood lost in the stored copy)";
    agrees(fit.intercept, { expected: 10.875, within: 5e-4, source });
    agrees(fit.slope, { expected: -0.17132, within: 5e-6, source });
    agrees(Math.sqrt(fit.covariance[0][0]), { expected: 5.703, within: 5e-4, source });
    agrees(Math.sqrt(fit.covariance[1][1]), { expected: 0.08344, within: 5e-6, source });
    agrees(-fit.deviance / 2, { expected: -11.515, within: 5e-4, source });
    agrees(fit.nullDeviance - fit.deviance, { expected: 5.944, within: 5e-4, source });
  });

  test("five doses, thirty insects each", () => {
    const dead = [2, 8, 15, 23, 27];
    const dose = dead.flatMap((_, i) => Array<number>(30).fill(i));
    const died = dead.flatMap((count) => Array.from({ length: 30 }, (_, k) => k < count));
    const fit = logisticFit(dose, died);
    const source = "Bliss (1935) insects, in Faraway, Extending the Linear Model with R: printed R output seen; counts from memory";
    agrees(fit.intercept, { expected: -2.3238, within: 5e-5, source });
    agrees(fit.slope, { expected: 1.1619, within: 5e-5, source });
    agrees(Math.sqrt(fit.covariance[0][0]), { expected: 0.4179, within: 5e-5, source });
    agrees(Math.sqrt(fit.covariance[1][1]), { expected: 0.1814, within: 5e-5, source });
    // Single animals and groups differ in deviance by a constant, so the difference to the null model is the same.
    agrees(fit.nullDeviance - fit.deviance, { expected: 64.76327 - 0.37875, within: 1e-5, source });
  });
});

/** Outcomes of trials on a known curve: 50 % at 0.05, falling. */
function trials(seed: number, n = 40): { x: number[]; y: boolean[] } {
  const random = seededRandom(seed);
  const x = Array.from({ length: n }, (_, i) => 0.02 + (0.06 * (i % 10)) / 9);
  return { x, y: x.map((value) => random.uniform() < 1 / (1 + Math.exp(160 * (value - 0.05)))) };
}

test("coefficients, curve points and profile intervals are those of a general minimiser", () => {
  const sets = [{ x: temperature, y: damaged, p: 0.5 }, ...[1, 2, 3].map((seed) => ({ ...trials(seed), p: 0.9 }))];
  const answers = scipy(sets.map(({ x, y, p }) => ["logistic", [x, y.map(Number), p]] as const)) as number[][];
  sets.forEach(({ x, y, p }, i) => {
    const fit = logisticFit(x, y);
    const [a, b, deviance, low, high] = answers[i] as [number, number, number, number, number];
    agrees(fit.intercept, { expected: a, relative: 1e-4, source: scipySource });
    agrees(fit.slope, { expected: b, relative: 1e-4, source: scipySource });
    agrees(fit.deviance, { expected: deviance, relative: 1e-8, source: scipySource });
    const found = logisticInterval(fit, x, y, p, 0.95);
    agrees(found[0], { expected: low, relative: 1e-4, source: scipySource });
    agrees(found[1], { expected: high, relative: 1e-4, source: scipySource });
    const at = logisticAt(fit, p);
    expect(at.x).toBeGreaterThan(found[0]);
    expect(at.x).toBeLessThan(found[1]);
  });
});

test("the profile interval holds the truth about nineteen times in twenty", () => {
  let held = 0;
  let counted = 0;
  for (let seed = 1; seed <= 120; seed++) {
    const { x, y } = trials(seed);
    const fit = logisticFit(x, y);
    if (fit.verdict !== "fitted") continue;
    const [low, high] = logisticInterval(fit, x, y, 0.5, 0.95);
    counted++;
    if (low <= 0.05 && 0.05 <= high) held++;
  }
  expect(counted).toBeGreaterThan(110);
  // 95 % less or more 3 √(0.95 · 0.05 / 120) = 6 %
  expect(held / counted).toBeGreaterThan(0.89);
  expect(held).toBeLessThan(counted);
});

test("what has no maximum is said, with the gap", () => {
  expect(logisticFit([1, 2, 3, 4], [true, true, false, false])).toMatchObject({ verdict: "separated", gap: [2, 3] });
  expect(logisticFit([4, 3, 2, 1], [true, true, false, false])).toMatchObject({ verdict: "separated", gap: [2, 3] });
  // both outcomes at one x, and nothing else overlaps: still no maximum
  expect(logisticFit([1, 2, 2, 3], [true, true, false, false])).toMatchObject({ verdict: "separated", gap: [2, 2] });
  expect(logisticFit([1, 2, 3], [true, true, true]).verdict).toBe("oneOutcome");
  expect(logisticFit([2, 2, 2], [true, false, true]).verdict).toBe("oneX");
  expect(logisticFit([1, 2], [true, false]).slope).toBeNaN();
  expect(() => logisticFit([1, 2], [true])).toThrow(RangeError);
  expect(() => logisticFit([1, Number.NaN], [true, false])).toThrow(RangeError);
});

test("data that hardly depend on x set no bound", () => {
  const x = [1, 2, 3, 4, 5, 6, 7, 8];
  const y = [true, false, true, false, true, false, false, true];
  const [low, high] = logisticInterval(logisticFit(x, y), x, y, 0.5, 0.95);
  expect(Number.isFinite(low) && Number.isFinite(high)).toBe(false);
});

test("far from zero and in any unit the curve is the same", () => {
  const { x, y } = trials(4);
  const plain = logisticFit(x, y);
  const moved = logisticFit(x.map((value) => 1000 + 1e6 * value), y);
  expect(logisticAt(moved, 0.5).x).toBeCloseTo(1000 + 1e6 * logisticAt(plain, 0.5).x, 3);
});
