import { expect, test } from "vitest";
import { seededRandom } from "../../../src/numerics/random.ts";
import { virginLoading } from "../../../src/processing/measures/virginLoading.ts";

const ramp = (from: number, to: number, step: number): number[] => Array.from({ length: Math.round(Math.abs(to - from) / step) }, (_, i) => from + Math.sign(to - from) * step * i);

test("unloading and reloading drop out, and what follows the greatest sinkage", () => {
  const motion = [...ramp(0, 20, 1), ...ramp(20, 12, 1), ...ramp(12, 40, 1), ...ramp(40, 30, 1)];
  const { kept, unloadings } = virginLoading(motion);
  expect(unloadings.length).toBe(1);
  expect(kept.map((i) => motion[i])).toEqual([...ramp(0, 21, 1), ...ramp(20, 41, 1)]);
});

test("noise is no unloading, and a true one is still cut at its turning point", () => {
  const random = seededRandom(4);
  const motion = [...ramp(0, 20, 0.02), ...ramp(20, 15, 0.02), ...ramp(15, 40, 0.02)].map((value) => value + 0.05 * random.normal());
  const { kept, unloadings } = virginLoading(motion);
  expect(unloadings.length).toBe(1);
  // turning point at sample 1000, back past it at sample 1500: 500 of 2500 samples go
  expect(kept.filter((i) => i > 1009 && i < 1485)).toEqual([]);
  expect(kept.length).toBeGreaterThan(1950);
});

test("a rest at the greatest sinkage is cut at its beginning", () => {
  const { kept } = virginLoading([0, 1, 2, 3, 3, 3, 3]);
  expect(kept).toEqual([0, 1, 2, 3]);
});

test("what came down before the unloading was recognised is taken back", () => {
  // alternating ± 0.05 gives a noise of 0.12, so a fall counts from 0.73 on: the fourth sample of a fall of 0.2 a sample
  const motion = [...ramp(0, 20, 1), ...ramp(20, 16, 0.2), ...ramp(16, 30, 1)].map((value, i) => value + (i % 2 === 0 ? 0.05 : -0.05));
  const { kept, unloadings } = virginLoading(motion);
  expect(unloadings.length).toBe(1);
  // greatest at sample 20 (20.05), passed again at sample 44 (20.05)
  expect(kept).toEqual([...Array.from({ length: 21 }, (_, i) => i), ...Array.from({ length: 10 }, (_, i) => 44 + i)]);
});
