import { describe, expect, test } from "vitest";
import { symmetricInverse } from "../../src/numerics/linearAlgebra.ts";
import { groupedCovariance, groupedInverse, varianceComponents } from "../../src/numerics/varianceComponents.ts";
import type { GroupedResiduals } from "../../src/numerics/varianceComponents.ts";
import { agrees } from "../helpers/agrees.ts";

const groups = [[10.1, 10.4, 9.9], [12.0, 12.3, 12.4], [8.7, 8.9, 8.2], [11.1, 10.6, 11.2]];
const average = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const all = groups.flat();
const grand = average(all);
const between = (3 * groups.reduce((sum, group) => sum + (average(group) - grand) ** 2, 0)) / 3;
const within = groups.reduce((sum, group) => sum + group.reduce((inner, value) => inner + (value - average(group)) ** 2, 0), 0) / 8;
const names = groups.flatMap((group, g) => group.map(() => `g${g}`));
const ones = all.map(() => 1);
/** one mean fitted; its covariance at the components asked about */
const mean = (components: { own: number; group: number }, groupings = [names]): GroupedResiduals => ({
  residuals: all.map((value) => value - grand),
  jacobian: all.map(() => [1]),
  covariance: [[(components.own + 3 * components.group) / 12]],
  known: all.map(() => 0), weights: ones, kinds: all.map(() => "a"), groupings,
});

describe("four groups of three, one mean", () => {
  test("as the analysis of variance has it", () => {
    let found = { own: { a: 1 }, groups: [1] } as { own: Readonly<Record<string, number>>; groups: readonly number[] };
    for (let pass = 0; pass < 30; pass++) found = varianceComponents(mean({ own: found.own.a as number, group: found.groups[0] as number }), found, 3, 1e-12);
    const source = "restricted likelihood of a balanced one-way layout is the analysis of variance: σ² = MSW, σ_g² = (MSB − MSW)/3, by hand";
    agrees(found.own.a as number, { expected: within, relative: 1e-6, source });
    agrees(found.groups[0] as number, { expected: (between - within) / 3, relative: 1e-6, source });
  });

  test("groups that do not differ: nothing between them, and no negative variance", () => {
    const dealt = all.map((_, i) => `h${i % 3}`);
    const flat = { ...mean({ own: 1, group: 0 }, [dealt]), residuals: all.map((_, i) => (i % 2 === 0 ? 1 : -1)) };
    const [group] = varianceComponents(flat, { own: { a: 1 }, groups: [1] }, 40, 1e-8).groups;
    expect(group).toBe(1e-8);
  });

  test("a known variance takes its part of the scatter", () => {
    const known = { ...mean({ own: within, group: 0 }, []), known: all.map(() => 0.5), residuals: all.map((_, i) => (i % 2 === 0 ? 1 : -1)), covariance: [[1 / 11]] };
    agrees(varianceComponents(known, { own: { a: 0.3 }, groups: [] }, 60, 1e-12).own.a as number, { expected: 12 / 11 - 0.5, relative: 1e-6, source: "Σ r²/(n − 1) less what is known, by hand" });
  });
});

test("who shares what: the same group, never a datum without a name", () => {
  const data = { known: [1, 1, 1], weights: [1, 1, 0.5], kinds: ["a", "a", "b"], groupings: [["x", "x", null]] };
  expect(groupedCovariance(data, { own: { a: 1, b: 3 }, groups: [0.25] })).toEqual([[2.25, 0.25, 0], [0.25, 2.25, 0], [0, 0, 8.25]]);
});

test("the inverse by way of the groups is the inverse", () => {
  const data = { known: [1, 2, 3, 1, 0.5], weights: [1, 1, 0.5, 1, 2], kinds: ["a", "a", "b", "b", "a"], groupings: [["x", "x", null, "y", "y"], ["u", "v", "u", "v", "u"]] };
  const components = { own: { a: 1, b: 3 }, groups: [0.25, 2] };
  const direct = symmetricInverse(groupedCovariance(data, components)) as number[][];
  groupedInverse(data, components)?.forEach((row, i) => row.forEach((value, j) => agrees(value, { expected: (direct[i] as number[])[j] as number, within: 1e-13, source: "inverse of the whole matrix by Cholesky's factor" })));
  expect(groupedInverse(data, components)).toHaveLength(5);
  expect(groupedInverse({ ...data, known: [-1, 2, 3, 1, 0.5] }, components)).toBeNull();
});

test("no inverse, no change", () => {
  const start = { own: { a: 0 }, groups: [] };
  expect(varianceComponents({ ...mean({ own: 1, group: 0 }, []), known: all.map(() => 0) }, start, 3, 1e-12)).toBe(start);
});
