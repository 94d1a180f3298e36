import { expect, test } from "vitest";
import { varianceByLevel } from "../../src/numerics/varianceByLevel.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";

const three = (variances: readonly number[]) => variances.map((variance, i) => ({ variance, degreesOfFreedom: 2, level: i - 1 }));

test("groups alike: the pooled variance, known best in the middle", () => {
  const law = varianceByLevel(three([4, 4, 4]));
  const source = "XᵀWX = diag(3, 2) for levels −1, 0, 1 with two degrees of freedom each: h = 1/3 in the middle, 1/3 + 1/2 at the ends, ν = 2/h; by hand";
  agrees(law?.at(0).variance as number, { expected: 4, relative: 1e-9, source });
  agrees(law?.at(0).degreesOfFreedom as number, { expected: 6, relative: 1e-9, source });
  agrees(law?.at(1).degreesOfFreedom as number, { expected: 2.4, relative: 1e-9, source });
});

test("of two levels the one that the variances follow is likelier", () => {
  const groups = [1, 2, 4, 8].map((value) => ({ value, variance: value ** 2, degreesOfFreedom: 2 }));
  const [straight, powers] = [(value: number) => value, Math.log].map((of) => varianceByLevel(groups.map((group) => ({ ...group, level: of(group.value) })))?.logLikelihood as number) as [number, number];
  expect(powers).toBeGreaterThan(straight);
  agrees(powers, { expected: -4 - Math.log(64 ** 2), within: 1e-9, source: "−½ Σ ν (ln σ² + 1) with σ² = x², by hand" });
});

test("variances on the law come back, and beyond the ends the end stands", () => {
  const law = varianceByLevel(three([1, 10, 100]));
  agrees(law?.at(0.5).variance as number, { expected: 10 ** 1.5, relative: 1e-7, source: "ln σ² = ln 10 + x ln 10, by hand" });
  expect(law?.at(7)).toEqual(law?.at(1));
});

// 95 % of ln σ² within 1.96 √(2/ν): 400 made days of twelve groups, binomial sd 1.1 %; chi-square of two degrees of freedom is skew, which costs a little
test("the degrees of freedom say how well the variance is known", () => {
  const random = seededRandom(5);
  let inside = 0;
  for (let day = 0; day < 400; day++) {
    const groups = Array.from({ length: 12 }, (_, g) => ({ level: g, degreesOfFreedom: 2, variance: (Math.exp(0.2 * g) * (random.normal() ** 2 + random.normal() ** 2)) / 2 }));
    const { variance, degreesOfFreedom } = varianceByLevel(groups)?.at(9) ?? { variance: 1, degreesOfFreedom: 1 };
    if (Math.abs(Math.log(variance) - 1.8) < 1.96 * Math.sqrt(2 / degreesOfFreedom)) inside++;
  }
  expect(inside / 400).toBeGreaterThan(0.9);
  expect(inside / 400).toBeLessThan(0.98);
});

test("two levels, or no variance at all, make no law", () => {
  expect(varianceByLevel(three([1, 2, 3]).slice(1))).toBeNull();
  expect(varianceByLevel(three([0, 0, 0]))).toBeNull();
});
