import { expect, test } from "vitest";
import { cumulativeTrapezoid, trapezoid } from "../../src/numerics/integrate.ts";
import { agrees } from "../helpers/agrees.ts";
import { scipyNumbers, scipySource } from "./scipyReference.ts";

test("a sampled half-sine falls short by the known factor", () => {
  const source = "Σ A Δt cot(π/2N), the trapezoid sum of a half-sine in closed form";
  for (const [intervals, expected] of [[11, 3.410337], [110, 3.4337 * 0.99993203]] as const) {
    const [peak, durationS] = [50 * 9.80665, 0.011];
    const y = Array.from({ length: intervals + 1 }, (_, i) => peak * Math.sin((Math.PI * i) / intervals));
    const spacing = durationS / intervals;
    agrees(trapezoid(spacing, y), { expected: (peak * spacing) / Math.tan(Math.PI / (2 * intervals)), relative: 1e-13, source });
    agrees(trapezoid(spacing, y), { expected, within: intervals === 11 ? 1e-6 : 1e-4, source });
  }
});

test("velocity changes of the standard shock pulses", () => {
  const gn = 9.80665;
  const foot = 0.3048;
  const pulses = {
    halfSine: (share: number) => Math.sin(Math.PI * share),
    sawtooth: (share: number) => share,
    trapezoidal: (share: number) => Math.min(1, share / 0.1, (1 - share) / 0.1),
  };
  const change = (shape: keyof typeof pulses, peakGn: number, durationS: number): number => {
    const n = 20_000;
    return trapezoid(durationS / n, Array.from({ length: n + 1 }, (_, i) => peakGn * gn * pulses[shape](i / n)));
  };
  const iec = "IEC 60068-2-27, table of severities, rounded to 0.1 m/s (from memory), and (2/π) A D, A D/2, 0.9 A D worked out";
  for (const [shape, peakGn, durationS, exact, printed] of [["halfSine", 15, 0.011, 1.0301, 1], ["halfSine", 30, 0.018, 3.3713, 3.4], ["halfSine", 50, 0.011, 3.4337, 3.4], ["halfSine", 100, 0.006, 3.7459, 3.7], ["halfSine", 500, 0.001, 3.1216, 3.1], ["halfSine", 1500, 0.0005, 4.6823, 4.7], ["sawtooth", 50, 0.011, 2.6968, 2.7], ["trapezoidal", 50, 0.011, 4.8543, 4.9]] as const) {
    agrees(change(shape, peakGn, durationS), { expected: exact, within: 1e-4, source: iec });
    agrees(change(shape, peakGn, durationS), { expected: printed, within: 0.05, source: iec });
  }
  const military = "MIL-STD-202G, method 213B, table 213-1, velocity changes in ft/s (from memory)";
  for (const [shape, peakGn, durationS, printed] of [["halfSine", 50, 0.011, 11.3], ["halfSine", 75, 0.006, 9.2], ["halfSine", 100, 0.006, 12.3], ["halfSine", 500, 0.001, 10.2], ["halfSine", 1000, 0.0005, 10.2], ["halfSine", 1500, 0.0005, 15.4], ["halfSine", 30, 0.011, 6.8], ["sawtooth", 50, 0.011, 8.8], ["sawtooth", 75, 0.006, 7.2], ["sawtooth", 100, 0.006, 9.7], ["sawtooth", 30, 0.011, 5.3]] as const) {
    agrees(change(shape, peakGn, durationS) / foot, { expected: printed, within: 0.06, source: military });
  }
});

test.each([[16, 0.974495], [64, 0.998394], [360, 0.999949]])("a loop of %d points on an ellipse keeps its known share of the area", (count, share) => {
  const angles = Array.from({ length: count + 1 }, (_, i) => (2 * Math.PI * i) / count);
  const area = trapezoid(angles.map((angle) => 0.008 * Math.cos(angle)), angles.map((angle) => -300 * Math.sin(angle)));
  agrees(area / (Math.PI * 0.008 * 300), { expected: share, within: 1e-6, source: "area of a polygon on an ellipse: (N/2π) sin(2π/N) of it" });
});

test("uneven spacing agrees with NumPy, and spacing as a number with spacing as times", () => {
  const x = Array.from({ length: 40 }, (_, i) => i + 0.3 * Math.sin(i));
  const y = x.map((value) => Math.cos(value / 3));
  const [expected] = scipyNumbers([["trapezoid", [x, y]]]) as [number];
  agrees(trapezoid(x, y), { expected, within: 1e-13, source: scipySource });
  expect(trapezoid(0.5, [1, 2, 4])).toBe(trapezoid([0, 0.5, 1], [1, 2, 4]));
});

test("the running integral starts at zero, adds up, and ends at the integral", () => {
  expect(cumulativeTrapezoid([0, 1, 3], [2, 4, 0])).toEqual(Float64Array.from([0, 3, 7]));
  expect(cumulativeTrapezoid(2, Float64Array.from([1, 1, 1]))).toEqual(Float64Array.from([0, 2, 4]));
  expect(trapezoid([0, 1, 3], [2, 4, 0])).toBe(7);
  expect(trapezoid([3, 1, 0], [0, 4, 2])).toBe(-7); // reversed
});

test("one sample, missing samples, wrong calls", () => {
  expect(trapezoid(1, [5])).toBe(0);
  expect(cumulativeTrapezoid(1, [1, Number.NaN, 1, 1])).toEqual(Float64Array.from([0, Number.NaN, Number.NaN, Number.NaN]));
  for (const of of [trapezoid, cumulativeTrapezoid]) {
    expect(() => of(1, [])).toThrow(RangeError);
    expect(() => of([1, 2], [1])).toThrow(RangeError);
  }
});
