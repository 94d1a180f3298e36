import { expect, test } from "vitest";
import { estimateFrom } from "../../src/core/estimate.ts";
import { shearModulusFit, shearRunToRun } from "../../src/fitting/shearModulusFit.ts";
import type { ShearCurveTest } from "../../src/fitting/shearModulusFit.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { ownRow, sharedRow } from "../helpers/runResult.ts";

function made(seed: number, repeats: number): ShearCurveTest[][] {
  const random = seededRandom(seed);
  return [2000, 5000, 9000].map((stress, s) =>
    Array.from({ length: repeats }, (_, repeat) => {
      const modulus = 0.015 * Math.exp(0.08 * random.normal());
      const strength = 0.7 * stress * Math.exp(0.03 * random.normal());
      const points = Array.from({ length: 30 }, (__, i) => ({ run: `s${s}r${repeat}`, x: i * 0.002, y: strength * (1 - Math.exp((-i * 0.002) / modulus)), yUncertainty: null, kept: true, reason: "" }));
      return { run: `s${s}r${repeat}`, points, strength: estimateFrom(strength, "Pa", "", [ownRow(1)]), shearModulus: estimateFrom(modulus, "m", "", [ownRow(1e-5), sharedRow(0.01 * modulus, "calibration SD")]) };
    }),
  );
}

// 400 made days, binomial sd 1.1 %
test("95 % intervals of K hold the truth as often as they say", () => {
  let held = 0;
  for (let seed = 1; seed <= 400; seed++) {
    const groups = made(seed, 2);
    const k = shearModulusFit(groups[0] as ShearCurveTest[], shearRunToRun(groups)).parameters[1]?.estimate;
    if (Math.abs((k?.value ?? 0) - 0.015) <= studentTQuantile(0.975, k?.degreesOfFreedom ?? 0) * (k?.standardUncertainty ?? Number.NaN)) held++;
  }
  expect(held / 400).toBeGreaterThanOrEqual(0.92);
  expect(held / 400).toBeLessThanOrEqual(0.985);
});

test("the shared calibration stays whole, the runs' scatter shrinks with their number", () => {
  const groups = made(1, 4);
  const k = shearModulusFit(groups[1] as ShearCurveTest[], shearRunToRun(groups)).parameters[1]?.estimate;
  expect((k?.budget.find((row) => row.cause === "calibration SD")?.effect ?? 0) / (k?.value ?? 1)).toBeCloseTo(0.01, 9);
  const own = k?.budget.find((row) => row.sharedBy === null);
  expect(own?.degreesOfFreedom).toBe(9);
  // pooled sd of ln K over three stresses of four runs, by hand from the runs
  const logs = groups.map((group) => group.map((one) => Math.log(one.shearModulus.value)));
  const squares = logs.flatMap((group) => group.map((value) => (value - group.reduce((sum, one) => sum + one, 0) / 4) ** 2)).reduce((sum, one) => sum + one, 0);
  expect((own?.effect ?? 0) / (k?.value ?? 1)).toBeCloseTo(Math.sqrt(squares / 9 / 4), 9);
});

test("without repeats the values stand without uncertainty", () => {
  const groups = made(1, 1);
  const fit = shearModulusFit(groups[0] as ShearCurveTest[], shearRunToRun(groups));
  expect(fit.verdict).toBe("undetermined");
  expect(fit.parameters[1]?.estimate.standardUncertainty).toBeNull();
  expect(fit.parameters[1]?.estimate.value).toBeGreaterThan(0.01);
});
