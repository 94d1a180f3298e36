import { describe, expect, test } from "vitest";
import { stepByFriction, stepFriction, stepTorque } from "../../../src/processing/measures/stepClimb.ts";

describe("quasi-static step", () => {
  test("moments about the edge by the geometry of a 3-4-5 triangle", () => {
    // r = 5, h = 2: edge 4 beside and 3 below the axle
    expect(stepTorque({ radiusM: 5, heightM: 2 }, 10, 0)).toBeCloseTo(40, 12);
    expect(stepTorque({ radiusM: 5, heightM: 2 }, 10, 7)).toBeCloseTo(61, 12);
    expect(stepFriction({ radiusM: 5, heightM: 2 })).toBeCloseTo(4 / 3, 12);
    expect(stepByFriction(5, 4 / 3)).toBeCloseTo(2, 12);
  });

  test("nothing to climb needs nothing; a step as high as the axle is out of reach", () => {
    expect(stepTorque({ radiusM: 0.1, heightM: 0 }, 50, 0)).toBe(0);
    expect(stepTorque({ radiusM: 0.1, heightM: 0.1 }, 50, 0)).toBeNaN();
    expect(stepByFriction(0.1, 0)).toBe(0);
  });
});
