import { beforeAll, expect, test } from "vitest";
import { reduceDay } from "../../src/day.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";
import { powerLawGoodness, sinkagePowerLaw } from "../../src/processing/measures/sinkagePowerLaw.ts";
import { agrees } from "../helpers/agrees.ts";

const source = "plate-sinkage data of R. Kruger, P. S. Els, H. A. Hamersma, J. Terramechanics 109 (2023) 45–62 (CC BY 4.0), fitted outside this project by the weighted least squares of J. Y. Wong 1980";

/** n and k [kPa/m^n] of the weighted fit (p²), its goodness; n of the unweighted one */
const published = [
  { run: "M4", n: 0.5359, k: 2233.49, goodness: 0.9594, unweighted: 0.5014 },
  { run: "M3", n: 0.6923, k: 2324.18, goodness: 0.8655, unweighted: 0.5093 },
  { run: "M2T1", n: 0.8529, k: 3338.71, goodness: 0.888, unweighted: 0.6316 },
] as const;

let day: DayResult;
beforeAll(async () => {
  day = await reduceDay("fixtures/open-plates");
});

test.each(published)("run $run: exponent and stiffness of the published curve", ({ run, n, k, goodness, unweighted }) => {
  const result = day.runs.find((candidate) => candidate.plan.id === run);
  const value = (name: string): number => result?.measures.find((measure) => measure.name === name)?.estimate.value ?? Number.NaN;
  agrees(value("sinkageExponent"), { expected: n, within: 5e-5, source });
  agrees(value("plateStiffness") / 1000, { expected: k, within: 0.05, source });
  const points = (result?.fits[0]?.points ?? []).map((point) => ({ sinkageM: point.x, pressurePa: point.y }));
  agrees(powerLawGoodness(points, value("sinkageExponent"), value("plateStiffness")), { expected: goodness, within: 5e-5, source });
  agrees(sinkagePowerLaw(points, "none").exponent, { expected: unweighted, within: 5e-5, source });
});

test("no power law describes these beds best: a plateau with a rise misses less of what it was not fitted to, and the run says so", () => {
  for (const run of day.runs) {
    expect(run.fits.map(({ model }) => model)).toContain("pressure over sinkage with a knee, one plate");
    expect(run.findings.map((found) => found.code)).toContain("plate-knee");
  }
  // the loose beds' first point lies beyond the build-up: its sinkage is not told
  expect(day.runs.map((run) => [run.plan.id, run.fits[1]?.verdict])).toEqual(day.runs.map(({ plan }) => [plan.id, plan.id === "M4" ? "determined" : "atLimit"]));
});

test("the plate is that of the data set", () => {
  for (const run of day.runs) agrees(run.plan.plate?.widthM ?? Number.NaN, { expected: Math.sqrt((4 * 0.018) / Math.PI), within: 1e-6, source: "the data set's readme: force in kN is pressure in kPa times 0.018 m², so d = √(4A/π) = 151.39 mm" });
});

test("without stated doubts and repeats there are values, and no uncertainty is made up", () => {
  for (const run of day.runs) for (const measure of run.measures) expect(measure.estimate.standardUncertainty, `${run.plan.id} ${measure.name}`).toBeNull();
  expect(day.runs.flatMap((run) => run.findings.map((found) => found.code))).toContain("contact-not-recorded");
});

test("one plate size: k_c and k_φ are not split", () => {
  const fit = day.soil.pressureSinkage;
  expect(fit?.verdict).toBe("undetermined");
  expect(fit?.sentence).toContain("cannot be told apart");
  for (const name of ["cohesiveModulus", "frictionalModulus"]) {
    const estimate = fit?.parameters.find((parameter) => parameter.name === name)?.estimate;
    expect(estimate?.value, name).toBeNaN();
    expect(estimate?.standardUncertainty, name).toBeNull();
  }
});
