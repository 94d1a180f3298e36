import { expect, test } from "vitest";
import { seededRandom } from "../../src/numerics/random.ts";
import { studentSumFactor } from "../../src/numerics/studentSum.ts";
import { agrees } from "../helpers/agrees.ts";

test("one part alone, and many degrees of freedom, leave Student's t", () => {
  agrees(studentSumFactor(1, 2, 0, 0.95), { expected: 4.303, within: 5e-4, source: "JCGM 100:2008, table G.2: t95(2) = 4.30" });
  agrees(studentSumFactor(0, 2, 1, 0.95), { expected: 1.96, within: 5e-4, source: "JCGM 100:2008, table G.2: t95(∞) = 1.960" });
  agrees(studentSumFactor(1, 1e6, 1, 0.95), { expected: 1.96, within: 5e-4, source: "JCGM 100:2008, table G.2: t95(∞) = 1.960" });
  expect(studentSumFactor(0, 3, 0, 0.95)).toBeNaN();
});

// drawn apart from the function: 20,000 samples each, binomial sd 0.15 %
test.each([[2, 0.08], [2, 0.25], [2, 0.5], [2, 0.8], [3, 0.08], [3, 0.5], [6, 0.25], [12, 0.5]])("ν = %s with a known share of %s: the interval holds 95 % to within one", (freedom, share) => {
  const random = seededRandom(Math.round(100 * share) + freedom);
  let held = 0;
  for (let i = 0; i < 20_000; i++) {
    const squares = Array.from({ length: freedom }, () => random.normal() ** 2).reduce((sum, square) => sum + square, 0);
    const seen = Math.sqrt(((1 - share) * squares) / freedom);
    const error = Math.sqrt(1 - share) * random.normal() + Math.sqrt(share) * random.normal();
    if (Math.abs(error) <= studentSumFactor(seen, freedom, Math.sqrt(share), 0.95) * Math.hypot(seen, Math.sqrt(share))) held++;
  }
  expect(held / 20_000).toBeGreaterThan(0.94);
  expect(held / 20_000).toBeLessThan(0.96);
});

test("between the factor of the effective degrees of freedom and that of the sum, as the parts count", () => {
  // draws of u_e T + u_k Z, T = Z/√(χ²/ν)
  const random = seededRandom(3);
  const sums = Array.from({ length: 200_000 }, () => {
    const squares = random.normal() ** 2 + random.normal() ** 2 + random.normal() ** 2;
    return Math.abs((0.6 * random.normal()) / Math.sqrt(squares / 3) + 0.8 * random.normal());
  }).sort((a, b) => a - b);
  const drawn = sums[190_000] as number;
  // ν_eff = 3/0.6⁴ = 23.1; Student's t for 23 degrees of freedom, 2.069: usual tables
  agrees(studentSumFactor(0.6, 3, 0.8, 0.95), { expected: 2.069 ** 0.64 * drawn ** 0.36, within: 0.02, source: "JCGM 100:2008, G.4, and 200,000 draws of the sum" });
});
