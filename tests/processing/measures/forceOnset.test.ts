import { expect, test } from "vitest";
import { seededRandom } from "../../../src/numerics/random.ts";
import { forceOnset } from "../../../src/processing/measures/forceOnset.ts";

/** 25 steps of 0.03 mm; the force sets in somewhere after the tenth, along a power of the way, and is 6 N half a millimetre on. */
function rising(seed: number, power: number, noiseN: number): { force: number[]; x: number[]; at: number } {
  const random = seededRandom(seed);
  const at = 3e-4 + 3e-5 * random.uniform();
  const x = Array.from({ length: 25 }, (_, i) => i * 3e-5);
  return { at, x, force: x.map((value) => noiseN * random.normal() + 6 * (Math.max(0, value - at) / 5e-4) ** power) };
}

const within = [1e-4, 4.5e-4] as const;

test("the interval holds the contact at its rate, whatever the power, and the errors average out", () => {
  let held = 0;
  let z = 0;
  // binomial sd of 95 % over 600 logs: 0.9 %
  for (let seed = 1; seed <= 600; seed++) {
    const { force, x, at } = rising(seed, 0.5 + 0.8 * seededRandom(seed + 5000).uniform(), 0.3);
    const found = forceOnset(force, x, { sd: 0.3, together: 1 }, within);
    const off = (found.at - at) / Math.hypot(found.random, found.shape);
    if (Math.abs(off) <= 1.96) held++;
    z += off / 600;
  }
  expect(held / 600).toBeGreaterThan(0.92);
  expect(held / 600).toBeLessThan(0.98);
  expect(Math.abs(z)).toBeLessThan(0.15);
});

test("mean and spread are those of weighted draws of place and power", () => {
  const { force, x } = rising(4, 0.9, 0.3);
  const found = forceOnset(force, x, { sd: 0.3, together: 1 }, within);
  // independent of the grid: importance sampling from the prior (JCGM 101:2008, 6.2: state of knowledge by Bayes's rule)
  const random = seededRandom(8);
  let [sum, first, second] = [0, 0, 0];
  const draws = Array.from({ length: 60_000 }, () => {
    const [place, power] = [within[0] + (within[1] - within[0]) * random.uniform(), 0.5 + 0.8 * random.uniform()];
    const along = x.map((value) => Math.max(0, value - place) ** power);
    const a = along.reduce((s, f, i) => s + f * (force[i] as number), 0) / along.reduce((s, f) => s + f * f, 0);
    return { place, misfit: along.reduce((s, f, i) => s + ((force[i] as number) - a * f) ** 2, 0) };
  });
  const least = Math.min(...draws.map(({ misfit }) => misfit));
  const variance = Math.max(0.3 ** 2, least / 22);
  for (const { place, misfit } of draws) {
    const weight = Math.exp((least - misfit) / (2 * variance));
    sum += weight;
    first += weight * place;
    second += weight * place * place;
  }
  const spread = Math.sqrt(second / sum - (first / sum) ** 2);
  expect(Math.abs(found.at - first / sum)).toBeLessThan(0.06 * spread);
  expect(Math.abs(Math.hypot(found.random, found.shape) / spread - 1)).toBeLessThan(0.06);
});

test("what noise hides of the power is alike in all logs; a quiet log tells it", () => {
  const loud = forceOnset(rising(2, 0.8, 1).force, rising(2, 0.8, 1).x, { sd: 1, together: 1 }, within);
  const quiet = forceOnset(rising(2, 0.8, 0.01).force, rising(2, 0.8, 0.01).x, { sd: 0.01, together: 1 }, within);
  expect(loud.shape / Math.hypot(loud.random, loud.shape)).toBeGreaterThan(0.3);
  expect(quiet.shape).toBeLessThan(0.1 * loud.shape);
});

test("neighbours that hang together say less", () => {
  const { force, x } = rising(3, 1, 0.3);
  const alone = forceOnset(force, x, { sd: 0.3, together: 1 }, within);
  const together = forceOnset(force, x, { sd: 0.3, together: 4 }, within);
  expect(Math.hypot(together.random, together.shape)).toBeGreaterThan(1.3 * Math.hypot(alone.random, alone.shape));
});

test("a dense log is thinned without moving the contact, and one without noise is exact to a place of the grid", () => {
  const x = Array.from({ length: 6000 }, (_, i) => i * 1.25e-7);
  const force = x.map((value) => 6 * (Math.max(0, value - 3.1e-4) / 5e-4));
  const found = forceOnset(force, x, { sd: 0, together: 1 }, within);
  expect(Math.abs(found.at - 3.1e-4)).toBeLessThan(1.5 * (within[1] - within[0]) / 120);
});
