import { expect, test } from "vitest";
import { estimateFrom } from "../../src/core/estimate.ts";
import { sharedEffects, unsharedUncertainty } from "../../src/fitting/sharedEffects.ts";
import { ownRow, sharedRow } from "../helpers/runResult.ts";

const first = estimateFrom(1, "1", "", [ownRow(0.03), ownRow(0.04, "zero"), sharedRow(0.5, "calibration A")]);
const second = estimateFrom(2, "1", "", [sharedRow(-0.2, "calibration A"), sharedRow(0.1, "radius")]);

test("the unshared part leaves out what runs share", () => {
  expect(unsharedUncertainty(first)).toBeCloseTo(0.05, 12);
  expect(unsharedUncertainty(second)).toBe(0);
});

test("a shared cause keeps its sign in every estimate", () => {
  expect(sharedEffects([first, second]).map(({ cause, effects }) => [cause, effects])).toEqual([["calibration A", [0.5, -0.2]], ["radius", [0, 0.1]]]);
});
