import { expect, test } from "vitest";
import { estimateFrom, undetermined } from "../../src/core/estimate.ts";
import { withFormDoubt } from "../../src/fitting/formDoubt.ts";
import { agrees } from "../helpers/agrees.ts";
import { ownRow } from "../helpers/runResult.ts";

const at = (value: number) => estimateFrom(value, "1", "read", [ownRow(0.001)]);

test("forms that go different ways widen the interval, forms that agree do not", () => {
  const apart = withFormDoubt(at(-0.06), [at(-0.06), at(-0.045), undetermined("1", "no curve")], "W1");
  agrees(apart.standardUncertainty ?? 0, { expected: Math.hypot(0.001, 0.015 / Math.sqrt(12)), relative: 1e-9, source: "quadrature by hand, rectangular distribution of width 0.015" });
  expect(withFormDoubt(at(-0.06), [at(-0.06), at(-0.06)], "W1").standardUncertainty).toBeCloseTo(0.001, 12);
});

test("what is not determined, or known from one form, stays as it is", () => {
  const open = undetermined("1", "no curve");
  expect(withFormDoubt(open, [at(1), at(2)], "W1")).toBe(open);
  expect(withFormDoubt(at(1), [at(1), open], "W1").budget).toHaveLength(1);
});
