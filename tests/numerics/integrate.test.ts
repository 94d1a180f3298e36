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
