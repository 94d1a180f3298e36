import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../src/numerics/random.ts";
import type { Decay } from "../../../src/processing/conditioning/decayPeaks.ts";
import type { DropSignal } from "../../../src/processing/conditioning/dropSignal.ts";
import { dampingByDecrement, dampingFromDecrement, logarithmicDecrement } from "../../../src/processing/measures/dampingByDecrement.ts";
import type { PeakSize } from "../../../src/processing/measures/dampingByDecrement.ts";
import { dampingByFit } from "../../../src/processing/measures/dampingByFit.ts";
import { agrees } from "../../helpers/agrees.ts";

const two = (cycle: number, ratio: number): PeakSize[] => [{ cycle: 0, size: 1, uncertainty: null }, { cycle, size: ratio, uncertainty: null }];

describe("logarithmic decrement", () => {
  test("motorcycle shock absorber, half a cycle leaves a quarter", () => {
    const source = "S. S. Rao, Mechanical Vibrations, example of the motorcycle shock absorber: δ 2.7726, ζ 0.4037, ω_n 3.4338 rad/s";
    const delta = logarithmicDecrement(two(0.5, 1 / 4));
    const zeta = dampingFromDecrement(delta).value;
    agrees(delta.value, { expected: 2.7726, within: 5e-5, source });
    agrees(zeta, { expected: 0.4037, within: 5e-5, source });
    agrees((2 * Math.PI) / 2 / Math.sqrt(1 - zeta * zeta), { expected: 3.4338, within: 1e-4, source: `${source}; printed from rounded steps` });
    agrees(zeta, { expected: 0.403713, within: 5e-7, source: `${source}; exact value of its formula` });
    // m 200 kg, 2 s a damped cycle
    const exact = `${source}; c = 2 ζ m ω_n and k = m ω_n² from unrounded steps (printed from rounded ones: 554.498 N·s/m, 2358.265 N/m)`;
    const omega = Math.PI / Math.sqrt(1 - zeta * zeta);
    agrees(2 * zeta * 200 * omega, { expected: 554.518, relative: 1e-6, source: exact });
    agrees(200 * omega ** 2, { expected: 2358.283, relative: 1e-6, source: exact });
  });
  test("20 cm to 2 cm in 100 oscillations", () => {
    const delta = logarithmicDecrement(two(100, 0.1));
    agrees(delta.value, { expected: 0.02302585, within: 5e-9, source: "ln(10)/100, exact" });
    agrees(delta.value, { expected: 0.023, within: 5e-4, source: "worked physics exercise: δ = ln(20/2)/100, printed 0.023" });
    agrees(dampingFromDecrement(delta).value, { expected: 0.00366465, within: 5e-9, source: "ζ = δ/√(4π² + δ²) for δ = ln(10)/100, exact identity" });
  });
  test("n counts cycles, not peaks", () => {
    const source = "amplitude on the 100th cycle is 13 % of the first, so 99 cycles lie between: δ = −ln(0.13)/99, exact";
    agrees(logarithmicDecrement(two(99, 0.13)).value, { expected: 0.0206083, within: 5e-8, source });
  });
  test.each([
    [0.05, 0.314553, 2.2036],
    [0.1, 0.631484, 1.09765],
    [0.2, 1.28255, 0.540445],
    [0.3, 1.97597, 0.350788],
  ])("δ of ζ = %f, by regression over ten peaks of a geometric series", (zeta, delta, cyclesToHalf) => {
    const exact = (2 * Math.PI * zeta) / Math.sqrt(1 - zeta * zeta);
    const peaks = Array.from({ length: 10 }, (_, k): PeakSize => ({ cycle: k / 2, size: 9 * Math.exp((-exact * k) / 2), uncertainty: 0.1 }));
    const found = logarithmicDecrement(peaks);
    agrees(found.value, { expected: delta, within: 5e-7, source: "δ = 2πζ/√(1 − ζ²), exact identity" });
    agrees(Math.LN2 / found.value, { expected: cyclesToHalf, relative: 5e-6, source: "cycles until half is left, ln 2/δ, exact identity" });
    agrees(dampingFromDecrement(found).value, { expected: zeta, within: 1e-12, source: "inverse of the identity δ = 2πζ/√(1 − ζ²)" });
  });
  test("two peaks have a decrement without uncertainty; one or a peak below rest have none", () => {
    expect(logarithmicDecrement(two(1, 0.5)).standardUncertainty).toBeNull();
    expect(logarithmicDecrement(two(1, 0.5).slice(0, 1)).value).toBeNaN();
    expect(logarithmicDecrement(two(1, -0.5)).method).toContain("above rest");
  });
});

const rateHz = 10000;
const frequency = 14;

/** A decay on its own, with its peaks put in by formula. */
function decaying(zeta: number, noise: number, seed: number, rest = 0): { readonly signal: DropSignal; readonly decay: Decay } {
  const random = seededRandom(seed);
  const omega = 2 * Math.PI * frequency;
  const damped = omega * Math.sqrt(1 - zeta * zeta);
  const timesS = Float64Array.from({ length: 8000 }, (_, i) => i / rateHz);
  const acceleration = timesS.map((t) => 9 * Math.exp(-zeta * omega * t) * Math.cos(damped * t) + rest + noise * random.normal());
  const signal = { run: "D1", timesS, acceleration, intervalS: 1 / rateHz } as unknown as DropSignal;
  const u = noise / 8;
  const peaks = Array.from({ length: 7 }, (_, k) => {
    const timeS = (k * Math.PI) / damped;
    return { timeS, height: 9 * Math.exp(-zeta * omega * timeS) * (k % 2 === 0 ? 1 : -1) + u * random.normal(), uncertainty: u };
  });
  return { signal, decay: { peaks, periodS: (2 * Math.PI) / damped, rest, restUncertainty: 0 } };
}

describe("damping of a decay", () => {
  test("both ways hold the truth at the stated rate", () => {
    let byPeaks = 0;
    let byFit = 0;
    let frequencies = 0;
    const seeds = 200;
    for (let seed = 1; seed <= seeds; seed++) {
      const { signal, decay } = decaying(0.06, 0.4, seed, 0.05);
      const peaks = dampingByDecrement(decay, "D1");
      const fit = dampingByFit(signal, decay);
      if (Math.abs(peaks.value - 0.06) <= 2.05 * (peaks.standardUncertainty ?? 0)) byPeaks++;
      if (Math.abs(fit.ratio.value - 0.06) <= 1.98 * (fit.ratio.standardUncertainty ?? 0)) byFit++;
      if (Math.abs(fit.naturalFrequency.value - frequency) <= 1.98 * (fit.naturalFrequency.standardUncertainty ?? 0)) frequencies++;
    }
    // 95 % of 200, three standard deviations of a binomial either side: 181 … 199; more is allowed, the uncertainty of the peaks being the larger of two.
    for (const count of [byPeaks, byFit, frequencies]) expect(count).toBeGreaterThanOrEqual(181);
    expect(byFit).toBeLessThanOrEqual(199);
  });
  test("without noise the fit returns what was put in", () => {
    const { signal, decay } = decaying(0.06, 0, 1, 0.2);
    const { ratio, naturalFrequency, fit } = dampingByFit(signal, decay);
    // Means over blocks of 1/40 period lower the amplitude alone.
    agrees(ratio.value, { expected: 0.06, within: 1e-6, source: "the decay made by formula in this test" });
    agrees(naturalFrequency.value, { expected: frequency, within: 1e-4, source: "the decay made by formula in this test" });
    expect(fit?.verdict).toBe("determined");
    agrees(fit?.parameters[4]?.estimate.value as number, { expected: 0.2, within: 1e-4, source: "the rest level put in by this test" });
  });
  test("a beat of two modes is not reported as one damping ratio", () => {
    const { signal, decay } = decaying(0.03, 0.1, 1);
    const acceleration = signal.acceleration.map((value, i) => value + 7 * Math.cos(2 * Math.PI * 37 * (i / rateHz)));
    const { ratio, fit } = dampingByFit({ ...signal, acceleration }, decay);
    expect(ratio.standardUncertainty).toBeNull();
    expect(ratio.method).toContain("unexplained");
    expect(fit?.verdict).toBe("undetermined");
  });
  test("two peaks are not enough", () => {
    const { signal, decay } = decaying(0.06, 0.4, 1);
    const short = { ...decay, peaks: decay.peaks.slice(0, 2) };
    expect(dampingByDecrement(short, "D1")).toMatchObject({ standardUncertainty: null });
    expect(dampingByDecrement(short, "D1").method).toContain("the last flight: 2;");
    expect(dampingByFit(signal, short)).toMatchObject({ fit: null, ratio: { standardUncertainty: null } });
  });
  test("a wrong level of rest shows in the budget", () => {
    const { decay } = decaying(0.06, 0.01, 1);
    const estimate = dampingByDecrement({ ...decay, restUncertainty: 0.05 }, "D1");
    expect(estimate.budget.map((row) => row.cause)).toContain("rest level of the decay, D1");
  });
});
