import { expect, test } from "vitest";
import { pooledCovariance } from "../../src/fitting/pooledCovariance.ts";

test("pairs of repeats pool, single members count nothing", () => {
  const { covariance, degreesOfFreedom } = pooledCovariance([[[1, 10], [3, 14]], [[0, 0], [0, 2], [0, 4]], [[99, 99]]]);
  // first group: ±1, ±2; second: 0, ±2
  expect(degreesOfFreedom).toBe(3);
  expect(covariance?.[0]).toEqual([2 / 3, 4 / 3]);
  expect(covariance?.[1]).toEqual([4 / 3, 16 / 3]);
});

test("no repeats, no covariance", () => {
  expect(pooledCovariance([[[1, 2]], [[3, 4]]])).toEqual({ covariance: null, degreesOfFreedom: 0 });
  expect(pooledCovariance([]).covariance).toBeNull();
});
