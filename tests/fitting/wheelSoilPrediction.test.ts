import { describe, expect, test } from "vitest";
import { predictShare } from "../../src/fitting/wheelSoilPrediction.ts";
import type { PredictedShare } from "../../src/fitting/wheelSoilPrediction.ts";
import { heldOut, heldOutGroups } from "../../src/fitting/heldOut.ts";
import { wheelSoilFit } from "../../src/fitting/wheelSoilFit.ts";
import { resistiveForceToFit, stressIntegralsToFit } from "../../src/fitting/wheelSoilStart.ts";
import { madeSoil, madeWheel, madeWheelRuns, trueShares } from "../helpers/madeWheelRuns.ts";

const runs = madeWheelRuns({ seed: 5, loads: [30, 60, 100], slips: [0.05, 0.2, 0.5] });
const toFit = stressIntegralsToFit(runs, "wider circle");
const fit = wheelSoilFit(runs, toFit);
const predicted = (...[quantity, wheel, slip, load]: [Parameters<typeof predictShare>[2], typeof madeWheel, number, number]): PredictedShare => {
  const found = predictShare(fit, toFit, quantity, wheel, slip, load);
  if ("reason" in found) throw new Error(found.reason);
  return found;
};

describe("forecasts", () => {
  test("between the loads measured: the truth within the band, and the band small", () => {
    for (const quantity of ["pull", "torque", "sinkage"] as const) {
      const { value, uncertainty } = predicted(quantity, madeWheel, 0.3, 80);
      const truth = trueShares(madeSoil, madeWheel, 0.3, 80)[quantity];
      expect(Math.abs(value - truth) / uncertainty, quantity).toBeLessThan(3);
      expect(uncertainty, quantity).toBeLessThan(0.02);
    }
  });

  test("far from the data the band widens", () => {
    expect(predicted("pull", madeWheel, 0.3, 400).parameterUncertainty).toBeGreaterThan(3 * predicted("pull", madeWheel, 0.3, 60).parameterUncertainty);
  });

  test("a wheel that sinks to its axle has no forecast, and the reason", () => {
    expect(predictShare(fit, toFit, "pull", { ...madeWheel, rimM: 0.02 }, 0.3, 400)).toHaveProperty("reason");
  });
});

describe("held out, load by load", () => {
  const own = heldOut(runs, toFit, heldOutGroups.load);
  const other = heldOut(runs, resistiveForceToFit, heldOutGroups.load);

  test("every run is foretold once by a fit that did not see its load", () => {
    expect(own.failed).toEqual([]);
    expect(own.points).toHaveLength(27);
    expect(new Set(own.points.map(({ group }) => group)).size).toBe(3);
  });

  test("the right model foretells to about the noise, and its bands hold", () => {
    expect(own.error.pull).toBeLessThan(0.03);
    expect(own.inside).toBeGreaterThan(0.8);
  });

  test("the wrong model scores worse", () => {
    for (const quantity of ["pull", "torque"] as const) expect(other.logScore[quantity]).toBeLessThan(own.logScore[quantity] - 0.5);
    expect(other.error.torque).toBeGreaterThan(3 * own.error.torque);
  });

  test("one condition only cannot be held out", () => {
    const one = runs.filter(({ setLoadN }) => setLoadN === 60);
    expect(heldOut(one, toFit, heldOutGroups.load)).toMatchObject({ points: [], failed: [{ reason: expect.stringContaining("one condition") as string }] });
  });
});
