import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../src/numerics/random.ts";
import type { Decay } from "../../../src/processing/conditioning/decayPeaks.ts";
import type { DropSignal } from "../../../src/processing/conditioning/dropSignal.ts";
import { dampingByHalfPower } from "../../../src/processing/measures/dampingByHalfPower.ts";
import { agrees } from "../../helpers/agrees.ts";

const rateHz = 10000;
const omega = 2 * Math.PI * 40;

function decaying(zeta: number, lastsS: number, noise = 0): { readonly signal: DropSignal; readonly decay: Decay } {
  const random = seededRandom(3);
  const damped = omega * Math.sqrt(1 - zeta * zeta);
  const timesS = Float64Array.from({ length: Math.round(lastsS * rateHz) }, (_, i) => i / rateHz);
  const acceleration = timesS.map((t) => 9 * Math.exp(-zeta * omega * t) * Math.cos(damped * t) + noise * random.normal());
  const peaks = Array.from({ length: 7 }, (_, k) => ({ timeS: (k * Math.PI) / damped, height: 9 * Math.exp((-zeta * omega * k * Math.PI) / damped) * (k % 2 === 0 ? 1 : -1), uncertainty: 0.1 }));
  return { signal: { run: "D1", timesS, acceleration, intervalS: 1 / rateHz, noise, zeroDegreesOfFreedom: 50 } as unknown as DropSignal, decay: { peaks, periodS: (2 * Math.PI) / damped, rest: 0, restUncertainty: 0 } };
}

describe("half-power bandwidth of a decay", () => {
  test.each([0.02, 0.05, 0.1, 0.15])("ζ = %f comes back from a decay that has died", (zeta) => {
    const { signal, decay } = decaying(zeta, 9 / (zeta * omega));
    const estimate = dampingByHalfPower(signal, decay);
    agrees(estimate.value, { expected: zeta, relative: 0.01, source: "the decay made by formula in this test" });
    expect(Math.abs(estimate.value - zeta)).toBeLessThan(2 * (estimate.standardUncertainty ?? 0));
  });
  test("noise: the truth stays inside", () => {
    const { signal, decay } = decaying(0.06, 9 / (0.06 * omega), 0.4);
    const estimate = dampingByHalfPower(signal, decay);
    expect(Math.abs(estimate.value - 0.06)).toBeLessThan(2 * (estimate.standardUncertainty ?? 0));
    expect(estimate.standardUncertainty ?? 1).toBeLessThan(0.01);
  });
  test("a log that ends early widens the peak: said in the budget, then refused", () => {
    const short = dampingByHalfPower(...(Object.values(decaying(0.05, 3.5 / (0.05 * omega))) as [DropSignal, Decay]));
    expect(short.budget[0]?.cause).toContain("left at the end");
    expect(Math.abs(short.value - 0.05)).toBeLessThan(2 * (short.standardUncertainty ?? 0));
    const cut = dampingByHalfPower(...(Object.values(decaying(0.05, 2 / (0.05 * omega))) as [DropSignal, Decay]));
    expect(cut.standardUncertainty).toBeNull();
    expect(cut.method).toContain("log longer");
  });
  test("two peaks are not enough", () => {
    const { signal, decay } = decaying(0.06, 0.5);
    expect(dampingByHalfPower(signal, { ...decay, peaks: decay.peaks.slice(0, 2) }).method).toContain("the last flight: 2;");
  });
});
