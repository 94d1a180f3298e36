import { describe, expect, test } from "vitest";
import { halfPower } from "../../src/numerics/halfPower.ts";
import { agrees } from "../helpers/agrees.ts";

/** Displacement response of a linear oscillator at 1 Hz. */
function response(ratio: number, stepHz: number): { readonly frequencies: number[]; readonly magnitudes: number[] } {
  const frequencies = Array.from({ length: Math.round(2 / stepHz) }, (_, i) => i * stepHz);
  return { frequencies, magnitudes: frequencies.map((r) => 1 / Math.hypot(1 - r * r, 2 * ratio * r)) };
}

describe("half-power bandwidth of an oscillator's displacement response", () => {
  const source = "r₁,₂² = 1 − 2ζ² ∓ 2ζ√(1 − ζ²), A. K. Chopra, Dynamics of Structures, chapter 3 (from memory), worked out";
  test.each([
    [0.01, 0.989849, 1.009851, 0.010002, 0.010001, 0.0099995],
    [0.05, 0.946111, 1.046363, 0.0502519, 0.0501261, 0.0499375],
    [0.1, 0.883743, 1.085817, 0.1020623, 0.1010365, 0.0994987],
    [0.2, 0.726692, 1.14539, 0.2182613, 0.2093489, 0.1959592],
  ])("ζ = %f", (ratio, lower, upper, estimate, byNatural, bySquares) => {
    const { frequencies, magnitudes } = response(ratio, 1e-4);
    const found = halfPower(frequencies, magnitudes);
    // Straight between lines 1e-4 apart.
    agrees(found?.lowerHz ?? Number.NaN, { expected: lower, within: 2e-6, source });
    agrees(found?.upperHz ?? Number.NaN, { expected: upper, within: 2e-6, source });
    const [r1, r2] = [found?.lowerHz ?? Number.NaN, found?.upperHz ?? Number.NaN];
    agrees((r2 - r1) / 2, { expected: byNatural, within: 2e-6, source: `${source}; half the width over the undamped frequency` });
    agrees((r2 ** 2 - r1 ** 2) / 4, { expected: bySquares, within: 2e-6, source: "ζ √(1 − ζ²), exact" });
    agrees(found?.dampingRatio ?? Number.NaN, { expected: estimate, within: 2e-6, source });
    agrees(found?.peakHz ?? Number.NaN, { expected: Math.sqrt(1 - 2 * ratio ** 2), within: 1e-6, source: "resonance at √(1 − 2ζ²), exact" });
    agrees(Math.max(...magnitudes), { expected: 1 / (2 * ratio * Math.sqrt(1 - ratio ** 2)), relative: 1e-4, source: "H_max = 1/(2ζ√(1 − ζ²)), exact" });
  });
});

test("a spectrum that does not come down on a side, that has its peak at an end, or that is missing has no answer", () => {
  expect(halfPower([0, 1, 2, 3], [0.9, 1, 0.9, 0.8])).toBeNull();
  expect(halfPower([0, 1, 2, 3], [0, 0, 0.5, 1])).toBeNull();
  expect(halfPower([0, 1, 2, 3], [1, 0.5, 0, 0])).toBeNull();
  expect(halfPower([0, 1, 2], [Number.NaN, Number.NaN, Number.NaN])).toBeNull();
  expect(() => halfPower([0, 1], [1, 2])).toThrow(RangeError);
  expect(() => halfPower([0, 1, 2], [1, 2])).toThrow(RangeError);
});
