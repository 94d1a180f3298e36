import { expect, it } from "vitest";
import { sinkage } from "../../../src/processing/measures/sinkage.ts";
import { agrees } from "../../helpers/agrees.ts";
import { cause, steady } from "../readings.ts";

it("takes a flexible wheel's deflection off the hub drop", () => {
  agrees(sinkage(steady(0.02, "m"), steady(0.006, "m")).value, { expected: 0.014, within: 1e-15, source: "z = Δh − δ, common practice" });
});

it("adds the doubts of touch and deflection in quadrature", () => {
  const estimate = sinkage(steady(0.02, "m", [cause("touch", 3e-4)]), steady(0.006, "m", [cause("deflection", 4e-4)]));
  agrees(Math.hypot(...estimate.rows.map((row) => row.effect)), { expected: 5e-4, relative: 1e-6, source: "3-4-5, JCGM 100 5.1.2" });
  expect(estimate.rows).toHaveLength(2);
});
