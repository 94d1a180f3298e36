import { expect, test } from "vitest";
import { reloadPressure } from "../../../src/models/unloadReload.ts";
import { reloadStiffness } from "../../../src/processing/measures/reloadStiffness.ts";
import { seededRandom } from "../../../src/numerics/random.ts";
import { agrees } from "../../helpers/agrees.ts";

const both = (from: number, to: number, step: number): number[] => {
  const down = Array.from({ length: Math.round((from - to) / step) + 1 }, (_, i) => from - i * step);
  return [...down, ...down.slice(0, -1).reverse()];
};

test("firm sand unloaded from 50 mm: 25 150 kN/m³", () => {
  const source = "firm sand with A_u = 503 MN/m⁴, turned at 50 mm and 592.887 kPa (J. Y. Wong's terrain table, from memory): k_u = A_u z_u = 25 150 kN/m³";
  const z = both(0.05, 0.03, 2e-4);
  const found = reloadStiffness(z, z.map((at) => reloadPressure(at, 0.05, 592887, { stiffnessAtSurface: 0, stiffnessByDepth: 503000e3 })));
  agrees(found?.stiffness ?? Number.NaN, { expected: 25150e3, relative: 1e-9, source });
  expect(found?.turnedM).toBe(0.05);
});

test("its uncertainty holds the truth at the stated rate", () => {
  let held = 0;
  for (let seed = 1; seed <= 200; seed++) {
    const random = seededRandom(seed);
    const z = both(0.02, 0.018, 2e-5);
    const found = reloadStiffness(z, z.map((at) => 30e3 - 12e6 * (0.02 - at) + 300 * random.normal()));
    if (Math.abs((found?.stiffness ?? Number.NaN) - 12e6) <= 1.97 * (found?.uncertainty ?? 0)) held++;
  }
  // 95 % of 200, three standard deviations of a binomial either side
  expect(held).toBeGreaterThanOrEqual(181);
  expect(held).toBeLessThanOrEqual(199);
});

test("below a fifth the plate lifts and does not count; what was not unloaded to half, or by too few samples, has no line", () => {
  const z = both(0.02, 0.015, 1e-4);
  const bent = (at: number): number => Math.max(30e3 - 12e6 * (0.02 - at), 1e3);
  agrees(reloadStiffness(z, z.map(bent))?.stiffness ?? Number.NaN, { expected: 12e6, relative: 1e-9, source: "the line the points were made from" });
  const shallow = both(0.02, 0.019, 1e-4);
  expect(reloadStiffness(shallow, shallow.map(bent))).toBeNull();
  expect(reloadStiffness(z.slice(0, 2), z.slice(0, 2).map(bent))).toBeNull();
  expect(reloadStiffness([], [])).toBeNull();
  expect(reloadStiffness(z, z.map((at) => 60e3 - bent(at)).map((p, i) => (i === 0 ? 60e3 : p)))).toBeNull();
});
