import { expect, test } from "vitest";
import { bootstrap } from "../../src/numerics/bootstrap.ts";
import { lineFit } from "../../src/numerics/lineFit.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { effectiveSampleSize, mean, standardDeviation } from "../../src/numerics/statistics.ts";
import { agrees } from "../helpers/agrees.ts";

const random = seededRandom(2);
const sample = Array.from({ length: 40 }, () => 10 + 2 * random.normal());
const meanOf = (values: readonly number[]) => (indices: Int32Array): number => mean(Array.from(indices, (i) => values[i] as number));

test("the mean's spread is known in closed form", () => {
  const { estimate, standardUncertainty, bias, failed, replicates, interval } = bootstrap(40, meanOf(sample), { random: seededRandom(1), replicates: 4000 });
  expect(estimate).toBe(mean(sample));
  const exact = standardDeviation(sample) * Math.sqrt(39) / 40;
  const source = "bootstrap variance of a mean: (n − 1) s² / n²";
  agrees(standardUncertainty, { expected: exact, relative: 3 / Math.sqrt(8000), source });
  agrees(bias, { expected: 0, within: (4 * exact) / Math.sqrt(4000), source: "the mean has no bias" });
  expect([failed, replicates.length]).toEqual([0, 4000]);
  const [low, high] = interval(0.95);
  agrees((high - low) / exact, { expected: 2 * 1.959964, relative: 0.06, source: "normal quantiles; mean of 40" });
  expect(interval(0.5)[0]).toBeGreaterThan(low);
});

test("pairs stay pairs", () => {
  const x = sample.map((_, i) => i);
  const y = sample.map((value, i) => value + 0.5 * i);
  const slope = (indices: Int32Array): number => lineFit(Array.from(indices, (i) => x[i] as number), Array.from(indices, (i) => y[i] as number)).slope;
  const result = bootstrap(40, slope, { random: seededRandom(1), replicates: 1000 });
  agrees(result.standardUncertainty, { expected: Math.sqrt(lineFit(x, y).covariance[1][1]), relative: 0.25, source: "standard error of the slope; pairs bootstrap differs by order 1/√n" });
});

test("blocks keep neighbours together and tell the spread of a correlated record", () => {
  const rho = 0.7;
  let state = 0;
  const record = Array.from({ length: 3000 }, () => (state = rho * state + random.normal()));
  const plain = bootstrap(3000, meanOf(record), { random: seededRandom(3), replicates: 400 }).standardUncertainty;
  const blocked = bootstrap(3000, meanOf(record), { random: seededRandom(3), replicates: 400, blockLength: 60 }).standardUncertainty;
  const exact = standardDeviation(record) / Math.sqrt(effectiveSampleSize(3000, rho));
  agrees(blocked, { expected: exact, relative: 0.25, source: "variance of the mean of an AR(1) record; 50 blocks know it to 1/√100" });
  expect(plain).toBeLessThan(0.6 * exact);
  bootstrap(5, (indices) => {
    expect((indices[1] as number) - (indices[0] as number) === 1 || indices[1] === 0).toBe(true);
    return 0;
  }, { random: seededRandom(4), replicates: 20, blockLength: 2 });
});

test("same seed, same answer; what cannot be computed is counted", () => {
  const run = (): readonly [number, number] => bootstrap(40, meanOf(sample), { random: seededRandom(9), replicates: 50 }).interval(0.9);
  expect(run()).toEqual(run());
  const half = bootstrap(3, (indices) => (indices.includes(0) ? 1 : Number.NaN), { random: seededRandom(9), replicates: 300 });
  agrees(half.failed / 300, { expected: (2 / 3) ** 3, within: 0.08, source: "chance that three draws all miss one of three; three standard errors" });
  const none = bootstrap(3, () => Number.NaN, { random: seededRandom(9), replicates: 10 });
  expect([none.standardUncertainty, none.bias, ...none.interval(0.9)]).toEqual(new Array(4).fill(Number.NaN));
});

test("wrong calls", () => {
  const statistic = (): number => 0;
  for (const wrong of [() => bootstrap(1, statistic, { random }), () => bootstrap(5, statistic, { random, replicates: 1 }), () => bootstrap(5, statistic, { random, blockLength: 6 }), () => bootstrap(5, statistic, { random, replicates: 5 }).interval(1)]) expect(wrong).toThrow(RangeError);
});
