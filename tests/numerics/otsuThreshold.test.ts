import { expect, test } from "vitest";
import { otsuThreshold } from "../../src/numerics/otsuThreshold.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { mean } from "../../src/numerics/statistics.ts";

test("two heaps are parted half way between them", () => {
  expect(otsuThreshold([10, 10, 10, 200, 200])).toBeCloseTo(105, 0);
  expect(otsuThreshold([200, Number.NaN, 10])).toBeCloseTo(105, 0);
});

test("all alike has no threshold", () => {
  expect(otsuThreshold([5, 5, 5])).toBeNaN();
});

test("no other cut gives a greater variance between the groups", () => {
  const random = seededRandom(4);
  const values = Array.from({ length: 3000 }, (_, i) => (i % 4 === 0 ? 60 : 180) + 25 * random.normal());
  const between = (cut: number): number => {
    const [low, high] = [values.filter((value) => value <= cut), values.filter((value) => value > cut)];
    return low.length === 0 || high.length === 0 ? 0 : low.length * high.length * (mean(low) - mean(high)) ** 2;
  };
  const found = between(otsuThreshold(values));
  const [least, most] = [Math.min(...values), Math.max(...values)];
  for (let i = 1; i < 400; i++) expect(between(least + ((most - least) * i) / 400)).toBeLessThan(found * 1.002);
});
