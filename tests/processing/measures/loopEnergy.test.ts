import { expect, test } from "vitest";
import { loopEnergy } from "../../../src/processing/measures/loopEnergy.ts";

test("loading at 20 N/mm and unloading at 25 N/mm: the triangle between them", () => {
  // up: (0, 0) → (4 mm, 80 N); down: (4 mm, 80 N) → (0.8 mm, 0 N): area = ½ · 0.8 mm · 80 N = 32 mJ
  const curve = { displacement: [0, 0.002, 0.004, 0.0024, 0.0008], force: [0, 40, 80, 40, 0], timesS: [0, 1, 2, 3, 4] };
  const energy = loopEnergy(curve, { valley: 0, peak: 2, end: 4 });
  expect(energy?.loop).toBeCloseTo(0.032, 9);
  expect(energy?.loading).toBeCloseTo(0.16, 9);
  expect(energy?.unloading).toBeCloseTo(0.128, 9);
});

test("a loop between two loads above zero counts its area only", () => {
  const curve = { displacement: [0.001, 0.003, 0.001], force: [20, 60, 20], timesS: [0, 1, 2] };
  expect(loopEnergy(curve, { valley: 0, peak: 1, end: 2 })?.loop).toBeCloseTo(0, 12);
});

test("a loop above zero that does not come back to its beginning is closed by a straight line", () => {
  // triangle (1 mm, 20 N), (3 mm, 60 N), (1.5 mm, 20 N): ½ · 0.5 mm · 40 N = 10 mJ
  const curve = { displacement: [0.001, 0.003, 0.0015], force: [20, 60, 20], timesS: [0, 1, 2] };
  expect(loopEnergy(curve, { valley: 0, peak: 1, end: 2 })?.loop).toBeCloseTo(0.01, 12);
});

test("no unloading, no loop", () => {
  expect(loopEnergy({ displacement: [0, 1], force: [0, 1], timesS: [0, 1] }, { valley: 0, peak: 1, end: null })).toBeNull();
});
