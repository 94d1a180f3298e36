import { expect, test } from "vitest";
import { secantStiffness } from "../../../src/processing/measures/secantStiffness.ts";

test("a straight spring has its rate at every load", () => {
  const displacement = Array.from({ length: 101 }, (_, index) => index * 5e-5);
  const curve = { displacement, force: displacement.map((x) => 2e4 * x), timesS: displacement };
  for (const load of [20, 50, 100]) expect(secantStiffness(curve, { valley: 0, peak: 100, end: null }, load)).toBeCloseTo(2e4, 4);
  expect(secantStiffness(curve, { valley: 0, peak: 100, end: null }, 150)).toBeNaN();
});
