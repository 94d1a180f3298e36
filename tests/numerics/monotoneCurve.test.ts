import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { monotoneCurve } from "../../src/numerics/monotoneCurve.ts";
import { agrees } from "../helpers/agrees.ts";

const source = "SciPy 1.17.1, scipy.interpolate.PchipInterpolator, value and derivative";
const cases = [
  { x: [0, 0.1, 0.2, 0.4, 0.6], y: [-0.12, 0.05, 0.18, 0.3, 0.31], at: [0, 0.042, 0.12, 0.27, 0.48, 0.57, 0.6], value: [-0.12, -0.043455168, 0.07963915447154471, 0.23765908536585365, 0.3061784615384615, 0.3097455769230769, 0.31], slope: [1.9, 1.7402879999999996, 1.479759349593496, 0.760484521575985, 0.06092307692307701, 0.01678846153846158, 0] },
  { x: [0, 1, 3, 4], y: [0, 2, 1, 1], at: [0, 0.28, 0.8, 1.8, 3.2, 3.8, 4], value: [0, 0.7938560000000001, 1.8826666666666672, 1.6480000000000001, 1, 1, 1], slope: [2.8333333333333335, 2.7456, 1.126666666666666, -0.7200000000000001, 0, 0, 0] },
  { x: [0, 1, 2], y: [0, 3, 2.5], at: [0, 0.14, 0.4, 0.9, 1.6, 1.9, 2], value: [0, 0.65177, 1.74, 2.95875, 2.892, 2.6355, 2.5], slope: [4.75, 4.5365, 3.7499999999999996, 0.8125, -0.5400000000000001, -1.2149999999999999, -1.5] },
];

describe.each(cases)("through $y", ({ x, y, at, value, slope }) => {
  test("value and slope agree with SciPy's", () => {
    const curve = monotoneCurve(x, y);
    at.forEach((place, i) => {
      agrees(curve.value(place), { expected: value[i] as number, within: 1e-13, source });
      agrees(curve.slope(place), { expected: slope[i] as number, within: 1e-12, source });
    });
  });
});

test("never leaves the points it runs between, and stays beyond the ends", () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.double({ min: 0.01, max: 2, noNaN: true }), fc.double({ min: -5, max: 5, noNaN: true })), { minLength: 2, maxLength: 8 }), fc.double({ min: 0, max: 1, noNaN: true }), (steps, share) => {
      const x = steps.reduce<number[]>((list, [width]) => [...list, (list.at(-1) ?? 0) + width], []);
      const y = steps.map(([, value]) => value);
      const curve = monotoneCurve(x, y);
      return y.slice(1).every((right, i) => {
        const left = y[i] as number;
        const at = curve.value((x[i] as number) + share * ((x[i + 1] as number) - (x[i] as number)));
        return at >= Math.min(left, right) - 1e-9 && at <= Math.max(left, right) + 1e-9;
      }) && curve.value((x[0] as number) - 1) === y[0] && curve.value((x.at(-1) as number) + 1) === y.at(-1);
    }),
  );
});

test("wrong calls", () => {
  expect(() => monotoneCurve([0], [1])).toThrow(/two knots/);
  expect(() => monotoneCurve([0, 1], [1])).toThrow(/as many values/);
  expect(() => monotoneCurve([0, 0], [1, 2])).toThrow(/rising/);
});
