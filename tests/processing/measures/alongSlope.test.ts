import { describe, expect, it } from "vitest";
import { alongSlope } from "../../../src/processing/measures/alongSlope.ts";
import { toEstimate } from "../../../src/processing/measures/reading.ts";
import { agrees } from "../../helpers/agrees.ts";
import { cause, steady } from "../readings.ts";

describe("pull and load along a slope", () => {
  it("keep the length of the force and turn it by the slope", () => {
    // A wheel on a slope of 3 : 4 that only bears, 50 N square to the bed: level components 40 N up and 30 N backwards.
    const turned = alongSlope(steady(-30, "N"), steady(40, "N"), steady(Math.atan(3 / 4), "rad"));
    agrees(turned.pull.value, { expected: 0, within: 1e-12, source: "by hand: triangle of 3, 4 and 5" });
    agrees(turned.load.value, { expected: 50, within: 1e-12, source: "by hand: triangle of 3, 4 and 5" });
  });

  it("carry the slope's doubt into the pull as load times angle", () => {
    const turned = alongSlope(steady(10, "N"), steady(100, "N"), steady(0, "rad", [cause("slope", 0.001)]));
    agrees(toEstimate(turned.pull, "R1", "").standardUncertainty ?? NaN, { expected: 0.1, within: 1e-6, source: "by hand: 100 N · 0.001 rad" });
    expect(toEstimate(turned.load, "R1", "").standardUncertainty).toBeCloseTo(0.01, 6);
  });
});
