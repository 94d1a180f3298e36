import { describe, expect, test } from "vitest";
import { effectiveDraws, splitRhat } from "../../src/numerics/chainDiagnostics.ts";
import { covarianceOf, isTaken, metropolisWalk, mirrored, tunedSize } from "../../src/numerics/metropolis.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";

type Density = (x: readonly number[]) => number;
interface Options { readonly start: readonly number[]; readonly factor: readonly (readonly number[])[]; readonly steps: number; readonly tuning?: number; readonly seed: number; readonly fold?: (x: number[]) => number[] }

/** Every place of a walk; its size is tuned before. */
function draws(density: Density, { start, factor, steps, tuning = 0, seed, fold }: Options): readonly (readonly number[])[] {
  const random = seededRandom(seed);
  let at = { x: start, density: density(start) };
  let size = 2.38 / Math.sqrt(start.length);
  const options = { factor, random, ...(fold && { fold }) };
  for (let k = 0; k < tuning; k += 10) {
    const end = metropolisWalk(density, at, { ...options, size, steps: 10 });
    size = tunedSize(size, end.taken / 10, 1 / (1 + k / 100) ** 0.6);
    at = end;
  }
  return Array.from({ length: steps }, () => (at = metropolisWalk(density, at, { ...options, size, steps: 1 })).x);
}
const column = (rows: readonly (readonly number[])[], i: number): number[] => rows.map((draw) => draw[i] as number);
const average = (values: readonly number[]): number => values.reduce((sum, x) => sum + x, 0) / values.length;

describe("distributions whose moments are known", () => {
  test("two normals, correlated 0.95, from a poor guess of their shape", () => {
    const [rho, sx, sy] = [0.95, 2, 0.01];
    const density: Density = ([x = 0, y = 0]) => {
      const [a, b] = [(x - 5) / sx, (y + 1) / sy];
      return -(a * a - 2 * rho * a * b + b * b) / (2 * (1 - rho * rho));
    };
    const chains = [1, 2, 3, 4].map((seed) => draws(density, { start: [5, -1], factor: [[1, 0], [0, 0.01]], steps: 20_000, tuning: 1000, seed }));
    for (const i of [0, 1]) {
      const parts = chains.map((chain) => column(chain, i));
      expect(splitRhat(parts)).toBeLessThan(1.02);
      expect(effectiveDraws(parts)).toBeGreaterThan(1000);
    }
    const all = chains.flat();
    const [[vx = 0, vxy = 0] = [], [, vy = 0] = []] = covarianceOf(all);
    const source = "the normal distribution that was sampled";
    agrees(average(column(all, 0)), { expected: 5, within: 0.2, source });
    agrees(Math.sqrt(vx), { expected: sx, relative: 0.06, source });
    agrees(Math.sqrt(vy), { expected: sy, relative: 0.06, source });
    agrees(vxy / Math.sqrt(vx * vy), { expected: rho, within: 0.01, source });
  });

  test("a density with an edge: exponential, with and without a mirror at the edge", () => {
    for (const fold of [undefined, ([x = 0]: number[]): number[] => [mirrored(x, 0, Infinity)]]) {
      const xs = column(draws(([x = 0]) => (x < 0 ? -Infinity : -x), { start: [1], factor: [[1]], steps: 60_000, seed: 7, ...(fold && { fold }) }), 0);
      expect(Math.min(...xs)).toBeGreaterThanOrEqual(0);
      agrees(average(xs), { expected: 1, within: 0.05, source: "mean of the exponential distribution" });
      agrees(xs.filter((x) => x > 3).length / xs.length, { expected: Math.exp(-3), within: 0.01, source: "tail of the exponential distribution" });
    }
  });

  test("between two mirrors: even", () => {
    const xs = column(draws(() => 0, { start: [0.5], factor: [[3]], steps: 40_000, seed: 9, fold: ([x = 0]) => [mirrored(x, 0, 1)] }), 0);
    agrees(average(xs), { expected: 0.5, within: 0.02, source: "mean of the even distribution" });
    agrees(average(xs.map((x) => x ** 2)), { expected: 1 / 3, within: 0.02, source: "second moment of the even distribution" });
  });
});

test("mirrors at the bounds, as often as needed", () => {
  const rows = [[0.3, 0.3], [-0.2, 0.2], [1.2, 0.8], [2.3, 0.3], [-2.3, 0.3], [3.4, 0.6], [-1.3, 0.7]] as const;
  for (const [value, inside] of rows) agrees(mirrored(value, 0, 1), { expected: inside, within: 1e-12, source: "by hand, on paper" });
  expect(mirrored(-3, 0, Infinity)).toBe(3);
  expect(mirrored(3, -Infinity, 2)).toBe(1);
});

test("a step up is always taken, a step down by its ratio, into nothing never", () => {
  const random = seededRandom(4);
  const share = (ratio: number): number => average(Array.from({ length: 20_000 }, () => (isTaken(ratio, random) ? 1 : 0)));
  expect([share(0.5), share(-Infinity), share(Number.NaN)]).toEqual([1, 0, 0]);
  agrees(share(-1), { expected: Math.exp(-1), within: 0.012, source: "Metropolis' rule; 3.5 σ of 20,000 throws" });
});

test("steps too often taken grow, those too seldom taken shrink", () => {
  expect(tunedSize(1, 0.234, 1)).toBe(1);
  expect(tunedSize(1, 0.5, 1)).toBeGreaterThan(1);
  expect(tunedSize(1, 0.1, 1)).toBeLessThan(1);
});

test("same seed, same walk; the steps taken are counted", () => {
  const run = () => metropolisWalk(([x = 0]) => -x * x, { x: [0], density: 0 }, { factor: [[1]], size: 1, steps: 50, random: seededRandom(3) });
  expect(run()).toEqual(run());
  expect(run().taken).toBeGreaterThan(10);
  expect(metropolisWalk(() => -Infinity, { x: [0], density: 0 }, { factor: [[1]], size: 1, steps: 50, random: seededRandom(3) })).toEqual({ x: [0], density: 0, taken: 0 });
});
