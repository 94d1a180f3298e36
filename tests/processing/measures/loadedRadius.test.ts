import { expect, test } from "vitest";
import { estimateFrom, undetermined } from "../../../src/core/estimate.ts";
import { loadedRadius, recordedRadius } from "../../../src/processing/measures/loadedRadius.ts";
import { rig } from "../../helpers/pressRun.ts";
import { wheel } from "../recordings.ts";

const withLugs = rig({ slipRadius: { policy: "effective", lugs: "with", uncertainty: 0.0003 } });

test("the radius reaches to the lugs' tips where the policy says so, and loses the deflection", () => {
  expect(recordedRadius(wheel, rig()).value).toBe(0.1);
  expect(recordedRadius(wheel, withLugs).value).toBeCloseTo(0.105, 12);
  const loaded = loadedRadius(wheel, withLugs, estimateFrom(0.004, "m", "pressed", [{ cause: "contact", effect: 0.0004, sharedBy: null, degreesOfFreedom: 9 }]));
  expect(loaded.value).toBeCloseTo(0.101, 12);
  expect(loaded.standardUncertainty).toBeCloseTo(0.0005, 12);
});

test("a deflection without uncertainty leaves the radius without one", () => {
  expect(loadedRadius(wheel, withLugs, undetermined("m", "the load was not reached")).standardUncertainty).toBeNull();
});
