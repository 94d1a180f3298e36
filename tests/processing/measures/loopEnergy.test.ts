import { expect, test } from "vitest";
import { standardDeviation } from "../../../src/numerics/statistics.ts";
import { seededRandom } from "../../../src/numerics/random.ts";
import { loopEnergy, loopEnergyNoise } from "../../../src/processing/measures/loopEnergy.ts";

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

test("the noise of the samples as it scatters from loop to loop", () => {
  const random = seededRandom(4);
  const n = 200;
  const loops = Array.from({ length: 300 }, () => {
    const travel = Array.from({ length: 2 * n + 1 }, (_, i) => (i <= n ? i : 2 * n - i) * 2e-5);
    const curve = { displacement: travel.map((value) => value + 4e-6 * random.normal()), force: travel.map((value, i) => (i <= n ? 2e4 : 1.8e4) * value + 0.3 * random.normal()), timesS: travel.map((_, i) => i) };
    const cycle = { valley: 0, peak: n, end: 2 * n };
    return { area: loopEnergy(curve, cycle)?.loop ?? Number.NaN, stated: loopEnergyNoise(curve, cycle)?.standardError ?? Number.NaN };
  });
  const stated = Math.sqrt(loops.reduce((sum, loop) => sum + loop.stated ** 2, 0) / loops.length);
  // the standard deviation of 300 values is known to 4 %
  expect(standardDeviation(loops.map((loop) => loop.area)) / stated).toBeGreaterThan(0.86);
  expect(standardDeviation(loops.map((loop) => loop.area)) / stated).toBeLessThan(1.14);
});

test("a handful of samples tells no noise", () => {
  expect(loopEnergyNoise({ displacement: [0, 1, 0], force: [0, 1, 0], timesS: [0, 1, 2] }, { valley: 0, peak: 1, end: 2 })).toBeNull();
});
