import { expect, it } from "vitest";
import { estimateFrom, undetermined } from "../../src/core/estimate.ts";
import type { Estimate } from "../../src/core/estimate.ts";
import { conditionMean } from "../../src/fitting/conditionMean.ts";
import { agrees } from "../helpers/agrees.ts";

const run = (id: string, value: number): Estimate =>
  estimateFrom(value, "N", "mean", [
    { cause: "calibration C", effect: 0.3, sharedBy: "calibration C", degreesOfFreedom: Infinity },
    { cause: "scatter of the reference run H", effect: 0.1, sharedBy: null, degreesOfFreedom: 3 },
    { cause: `noise, ${id}`, effect: 0.5, sharedBy: null, degreesOfFreedom: 4 },
  ]);
const pooled = { sd: 0.8, degreesOfFreedom: 10 };

it("scatter goes down with the repeats, the calibration and a common reference do not", () => {
  const estimate = conditionMean([run("A", 10), run("B", 11), run("C", 12), run("D", 11)], pooled, "pull");
  expect(estimate.value).toBe(11);
  agrees(estimate.standardUncertainty as number, { expected: Math.hypot(0.8 / 2, 0.3, 0.1), relative: 1e-9, source: "s_p/√m beside the shared causes, worked by hand" });
  expect(estimate.budget.map((row) => row.cause)).toEqual(["scatter between repeats, pull", "calibration C", "scatter of the reference run H"]);
});

it("a single run of a repeated measure carries the day's scatter between repeats, not only its own noise", () => {
  const estimate = conditionMean([run("A", 10)], pooled, "pull");
  agrees(estimate.standardUncertainty as number, { expected: Math.hypot(0.8, 0.3), relative: 1e-9, source: "s_p beside the calibration, worked by hand" });
});

it("without repeats on the day the run's own doubts stand, and the method says what is missing", () => {
  const estimate = conditionMean([run("A", 10)], null, "pull");
  agrees(estimate.standardUncertainty as number, { expected: Math.hypot(0.3, 0.1, 0.5), relative: 1e-9, source: "root sum of squares, worked by hand" });
  expect(estimate.method).toContain("nothing was repeated");
});

it("a repeat without an uncertainty leaves the mean without one", () => {
  expect(conditionMean([run("A", 10), undetermined("N", "one revolution", 10)], pooled, "pull").standardUncertainty).toBeNull();
});
