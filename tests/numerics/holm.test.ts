import { expect, it } from "vitest";
import { holm } from "../../src/numerics/holm.ts";

it("four comparisons, the order kept", () => {
  // Worked by hand from Holm's rule (from memory): 4 × 0.005, 3 × 0.01, 2 × 0.03, and 0.04 may not fall below the one before it.
  expect(holm([0.01, 0.04, 0.03, 0.005]).map((p) => Number(p.toFixed(6)))).toEqual([0.03, 0.06, 0.06, 0.02]);
});

it("never above one; a comparison that was not made counts for nothing", () => {
  expect(holm([0.9, 0.8])).toEqual([1, 1]);
  expect(holm([Number.NaN, 0.01, 0.02])).toEqual([Number.NaN, 0.02, 0.02]);
  expect(holm([])).toEqual([]);
});
