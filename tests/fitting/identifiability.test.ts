import { describe, expect, test } from "vitest";
import { identifiability } from "../../src/fitting/identifiability.ts";
import { agrees } from "../helpers/agrees.ts";

const beliefs = [{ mean: 0, sd: 2 }, { mean: 0, sd: 0.5 }, { mean: 0, sd: 10 }];
const symbols = ["a", "b", "c"];

describe("three parameters, of which the data see the sum of two in units of belief", () => {
  // a/2 + b/0.5 known to 0.01, the difference not at all beyond the belief; c narrowed tenfold
  const [tight, wide] = [0.01 ** 2, 1];
  const scaled = [[(tight + wide) / 2, (tight - wide) / 2, 0], [(tight - wide) / 2, (tight + wide) / 2, 0], [0, 0, 0.01]];
  const covariance = scaled.map((row, i) => row.map((value, j) => value * (beliefs[i]?.sd ?? 0) * (beliefs[j]?.sd ?? 0)));
  const found = identifiability(symbols, beliefs, covariance);

  test("neither of the two alone, their combination yes", () => {
    expect(found.parameters.map(({ share }) => share)).toEqual(["partly", "partly", "determined"]);
    agrees(found.parameters[0]?.narrowing ?? 0, { expected: Math.SQRT1_2, within: 1e-4, source: "half the variance of the difference, by hand" });
    expect(found.parameters[0]?.partners.map(({ symbol }) => symbol)).toEqual(["b"]);
    agrees(found.parameters[0]?.partners[0]?.correlation ?? 0, { expected: -0.9998, within: 1e-4, source: "(t − w)/(t + w), by hand" });
    expect(found.parameters[0]?.sentence).toBe("a rests on data and belief: the data narrow it to 71 % of what was believed. It moves together with b (-1.00): only their combination is determined.");
  });

  test("combinations, the best determined first", () => {
    expect(found.determinedDirections).toBe(2);
    expect(found.combinations[0]?.narrowing).toBeCloseTo(0.01, 6);
    expect(found.combinations[0]?.weights.map(({ symbol }) => symbol).sort()).toEqual(["a", "b"]);
    expect(found.combinations[2]?.narrowing).toBeCloseTo(1, 6);
    expect(found.sentence).toBe("The data determine 2 of 3 independent combinations; alone: c.");
  });
});

test("data that said nothing", () => {
  const found = identifiability(["a"], [{ mean: 1, sd: 2 }], [[4]]);
  expect(found.parameters[0]).toMatchObject({ narrowing: 1, share: "undetermined", sentence: "a is not determined by these data: it stays within what was believed before." });
  expect(found.sentence).toBe("The data determine 0 of 1 independent combinations, but no parameter alone.");
});
