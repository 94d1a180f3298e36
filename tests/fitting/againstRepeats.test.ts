import { expect, test } from "vitest";
import { againstRepeats } from "../../src/fitting/againstRepeats.ts";
import { agrees } from "../helpers/agrees.ts";
import { plan } from "../helpers/pressRun.ts";
import { ownRow, runResult, sharedRow } from "../helpers/runResult.ts";

const run = (id: string, value: number, setSlip = 0.2, rest = {}, wheel = "W1") => runResult(plan("traction", { id, wheel, setLoadN: 60, setSlip }), { pullCoefficient: { value, unit: "1", rows: [ownRow(0.003, `scatter of ${id}`), sharedRow(0.1, "calibration LC-1")] } }, rest);
const others = [run("b", 0.3), run("c", 0.34), run("d", 0.32, 0.4), run("e", 0.34, 0.4), run("f", 0.36, 0.4)];

test("the difference to the mean of the others; what all share cancels", () => {
  const beside = againstRepeats(run("a", 0.35), others, "pullCoefficient");
  expect(beside?.others).toEqual([{ run: "b", value: 0.3 }, { run: "c", value: 0.34 }]);
  expect(beside?.difference.value).toBeCloseTo(0.03, 12);
  // 0.003 of this run and of the mean of two
  expect(beside?.difference.standardUncertainty).toBeCloseTo(0.003 * Math.sqrt(1.5), 9);
});

test("the limit is the prediction interval of one more observation", () => {
  // squares 2 · 0.02² of b, c and 2 · 0.02² of d, e, f; degrees of freedom 1 + 2; two others
  const scatter = Math.sqrt((4 * 0.02 ** 2) / 3);
  const limit = againstRepeats(run("a", 0.35), others, "pullCoefficient")?.limit ?? Number.NaN;
  agrees(limit / (scatter * Math.sqrt(1.5)), { expected: 5.841, within: 0.0005, source: "Student's t, 0.995, 3 degrees of freedom: 5.841, printed in any table of it, from memory" });
  expect(againstRepeats(run("a", 0.32 + limit * 1.001), others, "pullCoefficient")?.apart).toBe(true);
  expect(againstRepeats(run("a", 0.32 + limit * 0.999), others, "pullCoefficient")?.apart).toBe(false);
});

test("a run does not widen its own limit, whether it is among the runs or not", () => {
  const wild = run("a", 0.9);
  expect(againstRepeats(wild, [wild, ...others], "pullCoefficient")).toEqual(againstRepeats(wild, others, "pullCoefficient"));
});

test("one repeat and no scatter: a difference without a limit", () => {
  expect(againstRepeats(run("a", 0.35), [run("b", 0.3)], "pullCoefficient")).toMatchObject({ limit: null, apart: null });
});

test("repeats equal to the last digit show no scatter to judge by", () => {
  expect(againstRepeats(run("a", 0.35), [run("b", 0.3), run("c", 0.3)], "pullCoefficient")).toMatchObject({ limit: null, apart: null });
});

test.each([
  ["another wheel", run("b", 0.3, 0.2, {}, "W2")],
  ["another slip", run("b", 0.3, 0.4)],
  ["a rejected run", run("b", 0.3, 0.2, { verdict: "repeat" })],
  ["a run without the number", run("b", Number.NaN)],
])("%s is no repeat", (_, other) => {
  expect(againstRepeats(run("a", 0.35), [other], "pullCoefficient")).toBeNull();
});
