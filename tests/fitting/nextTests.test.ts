import { expect, test } from "vitest";
import { expectedNarrowing } from "../../src/fitting/nextTests.ts";
import { agrees } from "../helpers/agrees.ts";

const beliefs = [{ mean: 0, sd: 1 }, { mean: 0, sd: 3 }];

test("a test of one parameter narrows it as two measurements do", () => {
  const [found] = expectedNarrowing(beliefs, [[1, 0], [0, 9]], [{ name: "a again", rows: [{ slopes: [1, 0], uncertainty: 1 }] }]);
  agrees(found?.ratios[0] ?? 0, { expected: Math.SQRT1_2, within: 1e-9, source: "1/(1 + 1), by hand" });
  agrees(found?.ratios[1] ?? 0, { expected: 1, within: 1e-9, source: "the test does not see it" });
});

test("parameters that only their sum was known of: a test of one settles both", () => {
  // sum known to 0.1, difference to 2: C = ¼ [[4.01, −3.99], [−3.99, 4.01]]
  const covariance = [[1.0025, -0.9975], [-0.9975, 1.0025]];
  const [found] = expectedNarrowing(beliefs, covariance, [{ name: "one alone", rows: [{ slopes: [1, 0], uncertainty: 0.1 }] }]);
  for (const ratio of found?.ratios ?? []) expect(ratio).toBeLessThan(0.15);
});

test("no candidate, and a covariance that cannot be inverted", () => {
  expect(expectedNarrowing(beliefs, [[1, 0], [0, 9]], [])).toEqual([]);
  expect(expectedNarrowing(beliefs, [[1, 1], [1, 1]], [{ name: "x", rows: [] }])).toEqual([{ name: "x", ratios: [1, 1] }]);
});
