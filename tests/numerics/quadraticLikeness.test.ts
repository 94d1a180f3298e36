import { expect, test } from "vitest";
import { leastSquares } from "../../src/numerics/linearAlgebra.ts";
import { halfSquareForm, quadraticCount, quadraticLikeness, quadraticTerms } from "../../src/numerics/quadraticLikeness.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";

const random = seededRandom(2);
const places = Array.from({ length: 40 }, () => [random.normal(), random.normal(), random.normal()]);

test("terms: one, the variables, their products", () => {
  const into = new Float64Array(quadraticCount(3));
  quadraticTerms([2, 3, 5], into);
  expect([...into]).toEqual([1, 2, 3, 5, 4, 6, 10, 9, 15, 25]);
});

test("half a square form, whatever the number of values left over from the fours", () => {
  for (const n of [1, 2, 4, 5, 6, 7, 8, 9]) {
    const t = Float64Array.from({ length: n }, (_, i) => i - 2);
    const gram = Float64Array.from({ length: n * n }, (_, k) => (k % n >= Math.floor(k / n) ? 1 + Math.floor(k / n) * (k % n) : 1e9));
    // G = 1 1ᵀ + i iᵀ, so that ½ tᵀ G t = ½ (Σ t)² + ½ (Σ i t)²
    const [sum, moment] = [t.reduce((all, value) => all + value, 0), t.reduce((all, value, i) => all + i * value, 0)];
    agrees(halfSquareForm(gram, t), { expected: 0.5 * sum ** 2 + 0.5 * moment ** 2, within: 1e-10, source: "two squares, by algebra" });
  }
});

test("quadratics come back as they are, several at once", () => {
  const found = quadraticLikeness(places, places.map(([x = 0, y = 0, z = 0]) => [3 - x + 2 * x * y - z * z, 7 * y]));
  const source = "the coefficients of the functions themselves";
  const expected = [3, -1, 0, 0, 0, 2, 0, 0, 0, -1, 0, 0, 7, 0, 0, 0, 0, 0, 0, 0];
  expected.forEach((value, k) => agrees(found[k] as number, { expected: value, within: 1e-7, source }));
});

test("another function: the nearest quadratic of least squares", () => {
  const y = places.map(([x = 0, y0 = 0]) => Math.exp(0.3 * x) + Math.sin(y0));
  const rows = places.map((place) => {
    const into = new Float64Array(10);
    quadraticTerms(place, into);
    return into;
  });
  const found = quadraticLikeness(places, y.map((value) => [value]));
  leastSquares(rows, y).solution.forEach((value, k) => agrees(found[k] as number, { expected: value, within: 1e-6, source: "src/numerics/linearAlgebra.ts, by orthogonal factors" }));
});

test("wrong calls", () => {
  expect(() => quadraticLikeness(places.slice(0, 9), places.slice(0, 9))).toThrow(/at least 10 places, found 9/);
});
