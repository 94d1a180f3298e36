import { describe, expect, test } from "vitest";
import { effectiveDraws, splitRhat } from "../../src/numerics/chainDiagnostics.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";

function autoregressive(seed: number, count: number, rho: number, at = 0): number[] {
  const random = seededRandom(seed);
  let x = random.normal();
  return Array.from({ length: count }, () => at + (x = rho * x + Math.sqrt(1 - rho * rho) * random.normal()));
}

describe("effective number of draws", () => {
  for (const rho of [0, 0.5, 0.9]) test(`first-order process with ${rho} from draw to draw`, () => {
    const chains = [1, 2, 3, 4].map((seed) => autoregressive(seed, 20_000, rho));
    agrees(effectiveDraws(chains), { expected: (80_000 * (1 - rho)) / (1 + rho), relative: 0.1, source: "N (1 − ρ)/(1 + ρ), variance of the mean of a first-order process, textbook" });
  });

  test("draws that swing to and fro say more than independent ones", () => expect(effectiveDraws([autoregressive(5, 20_000, -0.5)])).toBeGreaterThan(40_000));
  test("nothing varies", () => expect(effectiveDraws([[1, 1, 1, 1]])).toBe(0));
});

describe("split R̂", () => {
  test("chains of one distribution", () => expect(splitRhat([1, 2, 3, 4].map((seed) => autoregressive(seed, 2000, 0.3)))).toBeLessThan(1.01));
  test("chains that sit apart", () => expect(splitRhat([autoregressive(1, 2000, 0.3), autoregressive(2, 2000, 0.3, 3)])).toBeGreaterThan(1.3));
  test("one chain that wanders off", () => expect(splitRhat([autoregressive(1, 2000, 0).map((x, i) => x + i / 500)])).toBeGreaterThan(1.1));

  test("by hand", () => {
    // halves 1 3 and 2 6: means 2 and 4, variances 2 and 8; W 5, B/m 2, m 2
    agrees(splitRhat([[1, 3, 2, 6]]), { expected: Math.sqrt((0.5 * 5 + 2) / 5), relative: 1e-12, source: "the definition worked by hand" });
    expect(splitRhat([[1, 1, 1, 1]])).toBe(1);
    expect(splitRhat([[1, 1, 2, 2]])).toBe(Infinity);
  });
});

test("wrong calls", () => {
  expect(() => splitRhat([])).toThrow(RangeError);
  expect(() => splitRhat([[1, 2, 3]])).toThrow(RangeError);
  expect(() => effectiveDraws([[1, 2, 3, 4], [1, 2, 3, 4, 5]])).toThrow(RangeError);
});
