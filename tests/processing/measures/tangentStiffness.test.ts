import { expect, test } from "vitest";
import { tangentStiffness } from "../../../src/processing/measures/tangentStiffness.ts";

const displacement = Array.from({ length: 401 }, (_, index) => index * 1e-5);
const curve = { displacement, force: displacement.map((x) => 2e4 * x * (1 + 50 * x)), timesS: displacement };
const cycle = { valley: 0, peak: 400, end: null };

test("a parabola gives its own slope, inside and at the end of the branch", () => {
  // dF/dx = 2e4 (1 + 100 x), and x(60 N) = (√1.6 − 1)/100
  expect(tangentStiffness(curve, cycle, 60)).toBeCloseTo(2e4 * Math.sqrt(1.6), 2);
  expect(tangentStiffness(curve, cycle, 96)).toBeCloseTo(2e4 * 1.4, 2);
});

test("a load that was not reached has none", () => {
  expect(tangentStiffness(curve, cycle, 120)).toBeNaN();
});
