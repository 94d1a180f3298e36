import { it } from "vitest";
import { pullPerDegreeOfYaw, sideForceRatio } from "../../../src/processing/measures/sideForceRatio.ts";
import { agrees } from "../../helpers/agrees.ts";
import { steady } from "../readings.ts";

it("side force over load, and what a degree makes of it in the pull", () => {
  agrees(sideForceRatio(steady(-1.5, "N"), steady(60, "N")).value, { expected: -0.025, within: 1e-15, source: "arithmetic: −1.5 / 60" });
  agrees(pullPerDegreeOfYaw(steady(10, "N")).value, { expected: 0.174524, within: 1e-6, source: "table of sines: sin 1° = 0.0174524" });
});
