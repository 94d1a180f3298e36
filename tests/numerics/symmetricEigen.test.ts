import { expect, test } from "vitest";
import { symmetricEigen } from "../../src/numerics/symmetricEigen.ts";
import { agrees } from "../helpers/agrees.ts";

test("by hand: a square's diagonals", () => {
  const [first, second] = symmetricEigen([[2, 1], [1, 2]]);
  agrees(first?.value ?? 0, { expected: 3, within: 1e-12, source: "characteristic polynomial by hand" });
  agrees(second?.value ?? 0, { expected: 1, within: 1e-12, source: "characteristic polynomial by hand" });
  for (const entry of first?.vector ?? []) agrees(entry, { expected: Math.SQRT1_2, within: 1e-12, source: "the diagonal, by hand" });
});

test("A v = λ v, directions at right angles, values falling", () => {
  const a = [[4, -1, 0.5], [-1, 3, 0.2], [0.5, 0.2, -2]];
  const found = symmetricEigen(a);
  for (const { value, vector } of found) a.forEach((row, i) => expect(row.reduce((sum, entry, j) => sum + entry * (vector[j] as number), 0)).toBeCloseTo(value * (vector[i] as number), 10));
  expect(found.map(({ value }) => value)).toEqual([...found.map(({ value }) => value)].sort((x, y) => y - x));
  const [p, q] = [found[0]?.vector ?? [], found[1]?.vector ?? []];
  expect(p.reduce((sum, entry, i) => sum + entry * (q[i] as number), 0)).toBeCloseTo(0, 12);
});

test("nothing, and what is no square", () => {
  expect(symmetricEigen([])).toEqual([]);
  expect(() => symmetricEigen([[1, 2]])).toThrow(RangeError);
  expect(() => symmetricEigen([[Number.NaN]])).toThrow(RangeError);
});
