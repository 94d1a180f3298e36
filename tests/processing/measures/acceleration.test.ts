import { expect, it } from "vitest";
import { acceleration } from "../../../src/processing/measures/acceleration.ts";
import { agrees } from "../../helpers/agrees.ts";

const speeds = (perRevolution: readonly number[]) => ({ unit: "m/s" as const, value: 0.1, perRevolution, rows: [] });

it("is the slope of the revolutions' speeds, and their differences one by one", () => {
  const found = acceleration(speeds([0.10, 0.12, 0.14, 0.16]), [0, 4, 8, 12, 16], "m/s2", "a");
  agrees(found?.value ?? NaN, { expected: 0.005, relative: 1e-12, source: "0.02 m/s in 4 s, by hand" });
  for (const one of found?.perRevolution ?? []) agrees(one, { expected: 0.005, relative: 1e-12, source: "0.02 m/s in 4 s, by hand" });
  expect(found?.rows[0]?.effect).toBeLessThan(1e-12);
});

it("revolutions of unequal length count by their middles", () => {
  // v = 0.1 + 0.01 t at the middles 1, 4, 8 s.
  const found = acceleration(speeds([0.11, 0.14, 0.18]), [0, 2, 6, 10], "m/s2", "a");
  agrees(found?.value ?? NaN, { expected: 0.01, relative: 1e-12, source: "v = 0.1 + 0.01 t, by hand" });
});

it("its doubt is the scatter about the line; of two revolutions the whole is doubt, one has none", () => {
  const found = acceleration(speeds([0.1, 0.1 + 0.003, 0.1]), [0, 2, 4, 6], "m/s2", "a");
  // Residuals −1, 2, −1 mm/s about a level line: s² = 6e-6, Σ(t − t̄)² = 8.
  agrees(found?.rows[0]?.effect ?? NaN, { expected: Math.sqrt(6e-6 / 8), relative: 1e-9, source: "standard error of a slope, s/√Σ(t − t̄)², by hand" });
  expect(found?.rows[0]?.degreesOfFreedom).toBe(1);
  agrees(acceleration(speeds([0.1, 0.104]), [0, 2, 4], "m/s2", "a")?.rows[0]?.effect ?? NaN, { expected: 0.002, relative: 1e-9, source: "4 mm/s in 2 s, by hand" });
  expect(acceleration(speeds([0.1]), [0, 2], "m/s2", "a")).toBeNull();
});
