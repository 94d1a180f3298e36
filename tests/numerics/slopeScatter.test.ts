import { expect, it } from "vitest";
import { lineFit } from "../../src/numerics/lineFit.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { slopeScatter } from "../../src/numerics/slopeScatter.ts";
import { agrees } from "../helpers/agrees.ts";

const length = 10;
const count = 32;
const times = Array.from({ length: count }, (_, i) => ((i + 0.5) / count) * length);

function fitted(noise: readonly number[]): { readonly slope: number; readonly residuals: number[] } {
  const { slope, intercept } = lineFit(times, noise);
  return { slope, residuals: noise.map((value, i) => value - intercept - slope * (times[i] as number)) };
}

it("white noise: the variance is that of least squares on average, and the interval holds the slope as stated", () => {
  const random = seededRandom(11);
  const trials = 2000;
  let variance = 0;
  let inside = 0;
  for (let i = 0; i < trials; i++) {
    const { slope, residuals } = fitted(times.map(() => random.normal()));
    const { standardError, degreesOfFreedom } = slopeScatter(residuals, length);
    variance += standardError ** 2 / trials;
    if (Math.abs(slope) <= studentTQuantile(0.975, degreesOfFreedom) * standardError) inside++;
  }
  const squares = times.reduce((sum, time) => sum + (time - length / 2) ** 2, 0);
  // relative standard deviation of one u² is √(2/3.5); of the mean of 2000 1.7 %
  agrees(variance, { expected: 1 / squares, relative: 0.06, source: "σ²/Σ(t − t̄)² of least squares with independent errors, σ = 1 (any text on regression)" });
  expect(inside / trials).toBeGreaterThan(0.935);
  expect(inside / trials).toBeLessThan(0.975);
});

it("a ripple that comes back to its place disturbs the slope by what its phase makes of it", () => {
  const cycles = 4;
  const amplitude = 2;
  const phases = Array.from({ length: 40 }, (_, i) => (2 * Math.PI * i) / 40);
  const made = phases.map((phase) => fitted(times.map((time) => amplitude * Math.cos((2 * Math.PI * cycles * time) / length + phase))));
  const rms = Math.sqrt(made.reduce((sum, { slope }) => sum + slope ** 2, 0) / made.length);
  // ∫ t sin(2πmt/T) dt over the line, divided by ∫ t² dt: 6A/(πmT) at its worst, over √2 on average
  agrees(rms, { expected: (6 * amplitude) / (Math.PI * cycles * length) / Math.SQRT2, relative: 0.06, source: "integral worked by hand" });
  for (const { residuals } of made) expect(slopeScatter(residuals, length).standardError / rms).toBeCloseTo(1, 0);
});

it("a perfect line has no scatter", () => {
  expect(slopeScatter(new Array<number>(16).fill(0), 1)).toEqual({ standardError: 0, degreesOfFreedom: Infinity });
});

it("asks for four residuals", () => {
  expect(() => slopeScatter([1, 2, 3], 1)).toThrow(RangeError);
});
