import { expect, test } from "vitest";
import { seededRandom } from "../../../src/numerics/random.ts";
import { contactPoint } from "../../../src/processing/measures/contactPoint.ts";

/** 2 mm of approach at 0.01 mm a sample, then a spring of 20 N/mm. */
function press(seed: number, offsetN = 3, noiseN = 0.3, approachM = 0.002): { force: number[]; displacement: number[] } {
  const random = seededRandom(seed);
  const displacement = Array.from({ length: 800 }, (_, index) => index * 1e-5);
  return { displacement, force: displacement.map((x) => offsetN + noiseN * random.normal() + 2e4 * Math.max(0, x - approachM)) };
}

test("finds the contact and the zero of the force within its stated uncertainty", () => {
  let held = 0;
  for (let seed = 1; seed <= 200; seed++) {
    const { force, displacement } = press(seed);
    const contact = contactPoint(force, displacement);
    expect(contact).not.toBeNull();
    expect(Math.abs((contact?.forceZero ?? 0) - 3)).toBeLessThan(0.15);
    if (Math.abs((contact?.displacement ?? 0) - 0.002) <= 2 * (contact?.displacementUncertainty ?? 0)) held++;
  }
  // stated on the cautious side: two standard uncertainties hold the truth at least as often as 95 %
  expect(held).toBeGreaterThanOrEqual(190);
});

test("a single spike before contact is no contact", () => {
  const { force, displacement } = press(5);
  force[60] = 40;
  expect(contactPoint(force, displacement)?.displacement).toBeGreaterThan(0.0018);
});

test("a log that begins in contact has none", () => {
  for (let seed = 1; seed <= 50; seed++) {
    const { force, displacement } = press(seed, 0, 0.3, -0.001);
    expect(contactPoint(force, displacement)).toBeNull();
  }
  expect(contactPoint([0, 1, 2, 3, 4, 5], [0, 1, 2, 3, 4, 5])).toBeNull();
});

test("a force that stays flat has none", () => {
  expect(contactPoint(Array.from({ length: 100 }, () => 1), Array.from({ length: 100 }, (_, index) => index))).toBeNull();
});
