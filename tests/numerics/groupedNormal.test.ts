import { expect, test } from "vitest";
import { groupedNormal } from "../../src/numerics/groupedNormal.ts";
import { symmetricEigen } from "../../src/numerics/symmetricEigen.ts";
import { agrees } from "../helpers/agrees.ts";

const own = [0.3, 0.5, 0.2, 0.4, 0.6, 0.25];
const groupings = [[0, 0, 1, 1, 2, -1], [0, 1, 0, 1, 0, 1]];
const variances = [0.7, 0.2];
/** V written out */
const dense = own.map((variance, i) => own.map((_, j) => (i === j ? variance : 0) + groupings.reduce((sum, places, g) => sum + ((places[i] as number) >= 0 && places[i] === places[j] ? (variances[g] as number) : 0), 0)));
const directions = symmetricEigen(dense);
const source = "the covariance written out and taken apart by its eigenvalues";
/** aᵀ V⁻¹ b */
const product = (a: readonly number[], b: readonly number[]): number => directions.reduce((sum, { value, vector }) => sum + (a.reduce((inner, x, i) => inner + x * (vector[i] as number), 0) * b.reduce((inner, x, i) => inner + x * (vector[i] as number), 0)) / value, 0);

test("determinant and products are those of the covariance written out", () => {
  const normal = groupedNormal(groupings)(own, variances);
  agrees(normal.logDet, { expected: directions.reduce((sum, { value }) => sum + Math.log(value), 0), within: 1e-12, source });
  const r = [0.4, -1, 0.3, 2, -0.5, 0.1];
  agrees(normal.quad(r), { expected: product(r, r), within: 1e-12, source });
  const columns = [r, [1, 1, 1, 1, 1, 1], [0, 3, 0, -2, 1, 0.5]];
  const gram = new Float64Array(9).fill(1);
  normal.addGram(gram, Float64Array.from(own.flatMap((_, i) => columns.map((column) => column[i] as number))), 3);
  columns.forEach((a, i) => columns.forEach((b, j) => agrees(gram[3 * i + j] as number, { expected: j >= i ? 1 + product(a, b) : 1, within: 1e-12, source })));
});

test("without groups: each datum by itself", () => {
  const normal = groupedNormal([])([4, 9], []);
  agrees(normal.logDet, { expected: Math.log(36), within: 1e-14, source: "by hand, on paper" });
  agrees(normal.quad([2, 3]), { expected: 2, within: 1e-14, source: "by hand, on paper" });
});

test("wrong calls", () => {
  expect(() => groupedNormal([])([1, 0], [])).toThrow(/variances above 0/);
  expect(() => groupedNormal([[0]])([1], [0])).toThrow(/variances above 0/);
});
