import { expect, test } from "vitest";
import { carried, straightBeliefs } from "../../src/fitting/straightBeliefs.ts";
import type { StraightBelief } from "../../src/fitting/straightBeliefs.ts";
import { groupedNormal } from "../../src/numerics/groupedNormal.ts";
import type { WheelDatum } from "../../src/fitting/wheelSoilFit.ts";
import { agrees } from "../helpers/agrees.ts";

const datum = (measured: number, predicted: number): WheelDatum => ({ observation: {} as WheelDatum["observation"], quantity: "pull", measured, predicted, ownUncertainty: 0, weight: 1 });
const alone = (variances: readonly number[]) => groupedNormal([])(variances, []);

test("a mean of three with a belief: weights by the variances, the fit's own place drops out", () => {
  // y 1, 2, 4 with variances 1, 4, 4; belief 0 ± 2: precision 1 + ¼ + ¼ + ¼, centre (1 + ½ + 1)/1.75
  const fit = { fitted: [0.3], jacobian: [[1], [1], [1]], data: [1, 2, 4].map((y) => datum(y, 0.3)) };
  const found = straightBeliefs(fit, [{ at: [0, 1, 2] }], [{ mean: 0, sd: 2 }])([alone([1, 4, 4])]);
  agrees(found?.centre[0] ?? Number.NaN, { expected: 2.5 / 1.75, relative: 1e-12, source: "weighted mean by hand" });
  agrees(found?.lower[0]?.[0] ?? Number.NaN, { expected: Math.sqrt(1.75), relative: 1e-12, source: "root of the precision, by hand" });
});

test("a line through three points, in two blocks: least squares by hand", () => {
  // y = a + b x at x −1, 0, 1: a = mean 2, b = (4 − 1)/2 = 1.5; precision 3 and 2, no belief to speak of
  const fit = { fitted: [0, 0], jacobian: [[1, -1], [1, 0], [1, 1]], data: [1, 1, 4].map((y) => datum(y, 0)) };
  const found = straightBeliefs(fit, [{ at: [0, 2] }, { at: [1] }], [{ mean: 0, sd: 1e6 }, { mean: 0, sd: 1e6 }])([alone([1, 1]), alone([1])]) as StraightBelief;
  const source = "least squares by hand";
  agrees(found.centre[0] as number, { expected: 2, relative: 1e-9, source });
  agrees(found.centre[1] as number, { expected: 1.5, relative: 1e-9, source });
  agrees(found.lower[0]?.[0] as number, { expected: Math.sqrt(3), relative: 1e-9, source });
  agrees(found.lower[1]?.[1] as number, { expected: Math.sqrt(2), relative: 1e-9, source });
});

test("two standard deviations away stay two standard deviations away, and volumes stretch as the deviations do", () => {
  const narrow = { centre: [1], lower: [[1 / 2]] };
  const wide = { centre: [0], lower: [[1 / 3]] };
  const { x, logStretch } = carried([5], narrow, wide);
  agrees(x[0] as number, { expected: 6, relative: 1e-12, source: "1 + 2 · 2 becomes 0 + 2 · 3" });
  agrees(logStretch, { expected: Math.log(1.5), relative: 1e-12, source: "ratio of the standard deviations, by hand" });
});

test("there and back is where it began, with correlations too; the distance in V⁻¹ is kept", () => {
  const here = { centre: [1, -2], lower: [[2], [0.7, 1.5]] };
  const there = { centre: [0.4, -1], lower: [[0.9], [-0.4, 3]] };
  const start = [2, 0.5];
  const to = carried(start, here, there);
  const back = carried(to.x, there, here);
  back.x.forEach((value, i) => expect(value).toBeCloseTo(start[i] as number, 12));
  expect(back.logStretch).toBeCloseTo(-to.logStretch, 12);
  const distance = (x: readonly number[], { centre, lower: [[a = 0] = [], [b = 0, c = 0] = []] }: StraightBelief): number => {
    const [u, v] = [(x[0] as number) - (centre[0] as number), (x[1] as number) - (centre[1] as number)];
    return (a * u + b * v) ** 2 + (c * v) ** 2;
  };
  expect(distance(to.x, there)).toBeCloseTo(distance(start, here), 12);
});
