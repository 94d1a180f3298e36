import { expect, it } from "vitest";
import { grubbsTest } from "../../src/numerics/grubbs.ts";
import { agrees } from "../helpers/agrees.ts";

it("the handbook's one wild value", () => {
  const { index, g, critical } = grubbsTest([199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57], 0.05);
  const source = "NIST/SEMATECH e-Handbook, 1.3.5.17.1 (from memory); there one-sided: 2.032, which is two-sided at twice the chance";
  expect(index).toBe(7);
  agrees(g, { expected: 2.4687, within: 1e-4, source });
  agrees(grubbsTest([199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57], 0.1).critical, { expected: 2.032, within: 5e-4, source });
  agrees(critical, { expected: 2.126645, within: 6e-7, source: "two-sided: (n − 1)/√n · √(t²/(n − 2 + t²)), t at 0.05/(2n), worked with SciPy 1.10" });
});

it("asks for three values", () => {
  expect(() => grubbsTest([1, 2], 0.05)).toThrow(RangeError);
});
