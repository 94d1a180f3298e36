import { describe, expect, test } from "vitest";
import { lagByCorrelation } from "../../src/numerics/correlate.ts";
import { seededRandom, type Random } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";

const rateHz = 100;

/** A smooth signal without a period: twelve tones below 0.06 of the rate. */
function smooth(random: Random): (at: number) => number {
  const tones = Array.from({ length: 12 }, () => [random.uniform() * 0.06, random.uniform() * 2 * Math.PI, random.normal()] as const);
  return (at) => tones.reduce((total, [frequency, phase, size]) => total + size * Math.sin(2 * Math.PI * frequency * at + phase), 0);
}

describe("lag of b behind a", () => {
  test("a positive lag means b shows it later; whole and broken lags, any gain and level", () => {
    const signal = smooth(seededRandom(5));
    for (const lag of [0, 12, -30, 7.3, -0.45]) {
      const a = Float64Array.from({ length: 600 }, (_, i) => signal(i));
      const b = Float64Array.from({ length: 600 }, (_, i) => 40 - 0.02 + 3 * signal(i - lag));
      const found = lagByCorrelation(a, b, rateHz, 1);
      agrees(found.lagS * rateHz, { expected: lag, within: 0.01, source: "the shift the record was made with; cosine interpolation of a band below 0.06 f_s" });
      expect(found.peak).toBeGreaterThan(0.99);
      expect(found.standardUncertaintyS * rateHz).toBeLessThan(0.1);
    }
  });

  test("a pure tone is placed exactly", () => {
    const tone = (shift: number): number[] => Array.from({ length: 400 }, (_, i) => Math.sin((2 * Math.PI * (i - shift)) / 20));
    agrees(lagByCorrelation(tone(0), tone(2.25), rateHz, 0.08).lagS, { expected: 0.0225, within: 2e-4, source: "the shift the tone was made with; the means of 20 whole periods less a shift are not quite zero" });
  });

  test("records of different length, and missing samples", () => {
    const signal = smooth(seededRandom(6));
    const a = Float64Array.from({ length: 700 }, (_, i) => (i > 100 && i < 160 ? Number.NaN : signal(i)));
    const b = Float64Array.from({ length: 500 }, (_, i) => (i % 41 === 0 ? Number.NaN : signal(i - 20)));
    const found = lagByCorrelation(a, b, rateHz, 1);
    agrees(found.lagS, { expected: 0.2, within: 1e-3, source: "the shift the record was made with" });
    agrees(found.peak, { expected: 1, within: 1e-9, source: "the same signal" });
  });

  test("the stated uncertainty is the spread found: white noise", () => {
    const random = seededRandom(7);
    let squares = 0;
    for (let trial = 0; trial < 150; trial++) {
      const signal = smooth(random);
      const lag = 20 * (random.uniform() - 0.5);
      const a = Float64Array.from({ length: 500 }, (_, i) => signal(i));
      const b = Float64Array.from({ length: 500 }, (_, i) => signal(i - lag) + 0.3 * random.normal());
      const found = lagByCorrelation(a, b, rateHz, 0.5);
      squares += ((found.lagS * rateHz - lag) / (found.standardUncertaintyS * rateHz)) ** 2;
    }
    // three standard errors of the spread of 150, on the side of too small an uncertainty; too large is held less tightly
    const spread = Math.sqrt(squares / 150);
    expect(spread).toBeLessThan(1 + 3 / Math.sqrt(300));
    expect(spread).toBeGreaterThan(0.6);
  });

  test("correlated noise is not taken for independent", () => {
    const random = seededRandom(8);
    let squares = 0;
    for (let trial = 0; trial < 100; trial++) {
      const signal = smooth(random);
      let state = 0;
      const a = Float64Array.from({ length: 500 }, (_, i) => signal(i));
      const b = Float64Array.from({ length: 500 }, (_, i) => signal(i - 3.4) + (state = 0.95 * state + 0.1 * random.normal()));
      const found = lagByCorrelation(a, b, rateHz, 0.5);
      squares += ((found.lagS * rateHz - 3.4) / (found.standardUncertaintyS * rateHz)) ** 2;
    }
    expect(Math.sqrt(squares / 100)).toBeLessThan(1.2);
  });
});

describe("no answer", () => {
  test("a peak at the end of the range has no uncertainty", () => {
    const signal = smooth(seededRandom(5));
    const a = Float64Array.from({ length: 600 }, (_, i) => signal(i));
    const b = Float64Array.from({ length: 600 }, (_, i) => signal(i - 5));
    expect(lagByCorrelation(a, b, rateHz, 0.03).standardUncertaintyS).toBeNaN();
  });

  test("constants and all-missing records", () => {
    for (const b of [new Float64Array(50), new Float64Array(50).fill(1e6), new Float64Array(50).fill(Number.NaN)]) {
      const found = lagByCorrelation(Float64Array.from({ length: 50 }, (_, i) => Math.sin(i / 3)), b, rateHz, 0.1);
      expect([found.lagS, found.standardUncertaintyS, found.peak]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
    }
  });

  test("unrelated records correlate badly", () => {
    const random = seededRandom(9);
    const noise = (): number[] => Array.from({ length: 2000 }, () => random.normal());
    expect(lagByCorrelation(noise(), noise(), rateHz, 1).peak).toBeLessThan(0.15);
  });

  test("a chance likeness of a few samples at a large lag does not win", () => {
    const random = seededRandom(10);
    const a = Array.from({ length: 60 }, () => random.normal());
    const b = [...a.slice(54), ...Array.from({ length: 54 }, () => random.normal())];
    expect(lagByCorrelation(a, b, rateHz, 0.6).peak).toBeLessThan(0.9);
  });

  test("a stretch where nothing moves is not compared", () => {
    const a = Float64Array.from({ length: 300 }, (_, i) => Math.sin(i / 7) + 0.3 * Math.sin(i));
    const b = new Float64Array(300);
    b.set([1000, 2000, 3000], 297);
    const found = lagByCorrelation(a, b, rateHz, 1);
    expect(found.lagS * rateHz).toBeGreaterThanOrEqual(-2); // for any lag below, b is constant in the common stretch
    expect(found.peak).toBeGreaterThan(0);
    expect(found.peak).toBeLessThanOrEqual(1);
  });

  test("wrong calls", () => {
    for (const wrong of [() => lagByCorrelation([], [1], 1, 1), () => lagByCorrelation([1], [1], 0, 1), () => lagByCorrelation([1], [1], 1, 0)]) expect(wrong).toThrow(RangeError);
  });
});
