import { expect, test } from "vitest";
import { covarianceParts } from "../../src/numerics/covarianceParts.ts";
import { agrees } from "../helpers/agrees.ts";

const identity = (n: number): number[][] => Array.from({ length: n }, (_, i) => Array.from({ length: n }, (__, j) => (i === j ? 1 : 0)));
const alike = (names: readonly string[]): number[][] => names.map((a) => names.map((b) => (a === b ? 1 : 0)));

test("one cause: the usual covariance, data less parameters, nothing lost by weights", () => {
  const x = [0, 1, 2, 3, 4];
  const found = covarianceParts(x.map((value) => [1, value]), [{ size: 0.25, unit: identity(5) }]);
  const source = "straight line through five points: Var b = σ²/Σ(x − x̄)² = σ²/10, Var a = 3 σ²/5, ν = 3, by hand";
  agrees(found?.units[0]?.[1]?.[1] as number, { expected: 0.1, relative: 1e-12, source });
  agrees(found?.units[0]?.[0]?.[0] as number, { expected: 0.6, relative: 1e-12, source });
  agrees((2 * 0.25 ** 2) / (found?.doubt[0]?.[0] as number), { expected: 3, relative: 1e-12, source });
  expect(Math.max(...(found?.lost ?? [[1]]).flat().map(Math.abs))).toBeLessThan(1e-12);
  agrees(found?.gain[1]?.[4] as number, { expected: 0.2, relative: 1e-12, source: "(x − x̄)/Σ(x − x̄)², by hand" });
});

test("four groups of three and one mean: as the analysis of variance has it", () => {
  const names = ["a", "b", "c", "d"].flatMap((name) => [name, name, name]);
  const [own, group] = [0.5, 2];
  const found = covarianceParts(names.map(() => [1]), [{ size: own, unit: identity(12) }, { size: group, unit: alike(names) }]);
  const doubt = found?.doubt as number[][];
  const [within, between] = [(2 * own ** 2) / 8, (2 * (own + 3 * group) ** 2) / 3];
  const source = "balanced one-way layout: MSW and MSB independent with 8 and 3 degrees of freedom, σ_g² = (MSB − MSW)/3, u² of the mean = MSB/12; by hand";
  agrees(doubt[0]?.[0] as number, { expected: within, relative: 1e-10, source });
  agrees(doubt[1]?.[1] as number, { expected: (between + within) / 9, relative: 1e-10, source });
  const carried = (found?.units ?? []).map((unit) => unit[0]?.[0] as number);
  agrees(carried[0] as number, { expected: 1 / 12, relative: 1e-10, source });
  agrees(carried[1] as number, { expected: 3 / 12, relative: 1e-10, source });
  const variance = carried.reduce((sum, one, a) => sum + carried.reduce((inner, other, b) => inner + one * other * (doubt[a]?.[b] as number), 0), 0);
  agrees((2 * ((own + 3 * group) / 12) ** 2) / variance, { expected: 3, relative: 1e-10, source });
});

test("what weights cost that rest on estimated variances: their slopes times their doubt", () => {
  const names = ["a", "a", "a", "a", "b", "b", "c"];
  const jacobian = names.map((_, i) => [1, i * i]);
  const units = [identity(7), alike(names)];
  const sizes = [0.5, 0.4];
  const gainAt = (at: readonly number[]): readonly (readonly number[])[] => covarianceParts(jacobian, units.map((unit, a) => ({ size: at[a] as number, unit })))?.gain as number[][];
  const found = covarianceParts(jacobian, units.map((unit, a) => ({ size: sizes[a] as number, unit })));
  const whole = names.map((_, i) => names.map((__, j) => units.reduce((sum, unit, a) => sum + (sizes[a] as number) * (unit[i]?.[j] as number), 0)));
  const step = 1e-5;
  const slopes = sizes.map((_, a) => {
    const [up, down] = [1, -1].map((sign) => gainAt(sizes.map((size, b) => size + (a === b ? sign * step : 0)))) as [number[][], number[][]];
    return up.map((row, k) => row.map((value, i) => (value - (down[k]?.[i] as number)) / (2 * step)));
  });
  let expected = 0;
  slopes.forEach((one, a) => slopes.forEach((other, b) => {
    for (let i = 0; i < 7; i++) for (let j = 0; j < 7; j++) expected += 2 * (found?.doubt[a]?.[b] as number) * (one[1]?.[i] as number) * (whole[i]?.[j] as number) * (other[1]?.[j] as number);
  }));
  expect(expected).toBeGreaterThan(0);
  agrees(found?.lost[1]?.[1] as number, { expected, relative: 1e-5, source: "2 ΣΣ doubt_ab Cov(∂p̂/∂θ_a, ∂p̂/∂θ_b), the estimator differentiated numerically" });
});

test("a cause of which nothing was seen has a doubt; causes alike and a singular fit have no answer", () => {
  const names = ["a", "a", "b", "b"];
  const seen = covarianceParts(names.map(() => [1]), [{ size: 1, unit: identity(4) }, { size: 0, unit: alike(names) }]);
  expect(seen?.doubt[1]?.[1]).toBeGreaterThan(0);
  expect(covarianceParts(names.map(() => [1]), [{ size: 1, unit: identity(4) }, { size: 1, unit: identity(4) }])).toBeNull();
  expect(covarianceParts(names.map(() => [1, 1]), [{ size: 1, unit: identity(4) }])).toBeNull();
});

test("what came out on its bound is known better: an estimate cut off at zero scatters less", () => {
  const names = ["a", "a", "b", "b"];
  const causes = (onBound: boolean) => [{ size: 1, unit: identity(4) }, { size: 0, unit: alike(names), onBound }];
  const [free, bounded] = [false, true].map((onBound) => covarianceParts(names.map(() => [1]), causes(onBound)));
  // variance of max(0, x), x standard normal, by its moments: E = 1/√(2π), E² = ½
  const share = 0.5 - 1 / Math.sqrt(2 * Math.PI) ** 2;
  expect((bounded?.doubt[1]?.[1] as number) / (free?.doubt[1]?.[1] as number)).toBeCloseTo(share, 12);
  expect(bounded?.doubt[0]?.[0]).toBe(free?.doubt[0]?.[0]);
  expect(bounded?.lost[0]?.[0] as number).toBeLessThanOrEqual(free?.lost[0]?.[0] as number);
});
