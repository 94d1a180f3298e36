import { expect, test } from "vitest";
import { contactChord } from "../../../src/processing/measures/contactChord.ts";

test("chord of a circle by a 3-4-5 triangle, and its ends", () => {
  // R = 5, δ = 2: the floor lies 3 below the axle, half the chord is 4
  expect(contactChord(5, 2)).toBeCloseTo(8, 12);
  expect(contactChord(5, 0)).toBe(0);
  expect(contactChord(5, 5)).toBeCloseTo(10, 12);
  expect(contactChord(5, 11)).toBeNaN();
});
