import { describe, expect, test } from "vitest";
import { gaussLegendre } from "../../src/numerics/gaussLegendre.ts";
import { agrees } from "../helpers/agrees.ts";
import { agreesAll } from "./agreesAll.ts";
import { scipy, scipySource } from "./scipyReference.ts";

const integral = (count: number, f: (x: number) => number): number => {
  const { nodes, weights } = gaussLegendre(count);
  return nodes.reduce((sum, x, i) => sum + (weights[i] as number) * f(x), 0);
};

test("agrees with NumPy's nodes and weights", () => {
  const counts = [1, 2, 3, 8, 16, 33, 64];
  const answers = scipy(counts.map((count) => ["leggauss", [count]])) as [number[], number[]][];
  counts.forEach((count, i) => {
    const { nodes, weights } = gaussLegendre(count);
    const [expectedNodes, expectedWeights] = answers[i] as [number[], number[]];
    nodes.forEach((node, k) => agrees(node, { expected: expectedNodes[k] as number, within: 2e-15, source: scipySource }));
    agreesAll([...weights], expectedWeights, 1e-12, scipySource);
  });
});

describe("integrals known exactly", () => {
  test("polynomials up to degree 2n − 1, and no further", () => {
    agrees(integral(4, (x) => x ** 6), { expected: 2 / 7, relative: 1e-14, source: "∫₋₁¹ x⁶ dx by hand" });
    expect(Math.abs(integral(3, (x) => x ** 6) - 2 / 7)).toBeGreaterThan(1e-3);
  });

  test("a smooth function", () => agrees(integral(12, Math.exp), { expected: Math.E - 1 / Math.E, relative: 1e-14, source: "∫₋₁¹ eˣ dx by hand" }));
});

test("wrong call", () => {
  for (const count of [0, 2.5, -1]) expect(() => gaussLegendre(count)).toThrow(RangeError);
});
