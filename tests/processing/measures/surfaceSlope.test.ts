import { describe, expect, it } from "vitest";
import { aboutLine, heightAt, surfaceSlope } from "../../../src/processing/measures/surfaceSlope.ts";
import { agrees } from "../../helpers/agrees.ts";

const doubt = { slope: 0.0004, relative: 0.01, shared: "calibration SCN-3" };
/** z = 0.1 x, every other point 1 mm above and below */
const rough = Array.from({ length: 11 }, (_, i) => ({ x: 0.2 * i, z: 0.02 * i + (i % 2 === 0 ? 0.001 : -0.001) }));

describe("slope of a scanned surface", () => {
  it("is the angle of the line", () => {
    const straight = [0, 1, 2, 3].map((x) => ({ x, z: 0.05 - 0.1 * x }));
    agrees(surfaceSlope(straight, doubt, "R1").value, { expected: Math.atan(-0.1), within: 1e-12, source: "made line, falling a tenth" });
  });

  it("is in doubt by the straying at its two ends, the scanner's slope and its scale", () => {
    const found = surfaceSlope(rough, doubt, "R1");
    const s = aboutLine(rough);
    // Eleven points of ±1 mm leave Σ of 10.91 mm² about the line's height: s² = 10.91 / 9 mm².
    agrees(s, { expected: 0.001 * Math.sqrt((11 - 1 / 11) / 9), within: 1e-9, source: "by hand: residuals of alternating points" });
    const turned = 1 / 1.01;
    const expected = turned * Math.hypot((Math.SQRT2 * s) / 2, 0.0004, 0.01 * 0.1);
    agrees(found.standardUncertainty ?? NaN, { expected, within: 1e-9, source: "by hand: the three causes, cos² of the slope" });
    expect(found.budget.filter((row) => row.sharedBy === null)).toHaveLength(1);
  });

  it("reads between points on straight lines and nothing beyond them", () => {
    const two = [{ x: 1, z: 0 }, { x: 3, z: 4 }];
    expect([0.9, 1, 1.5, 3, 3.1].map((x) => heightAt(two, x))).toEqual([NaN, 0, 1, 4, NaN]);
    expect(heightAt([], 1)).toBeNaN();
  });
});
