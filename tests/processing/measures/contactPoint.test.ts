import { expect, test } from "vitest";
import { seededRandom } from "../../../src/numerics/random.ts";
import { contactPoint, staysFlat } from "../../../src/processing/measures/contactPoint.ts";

/** 2 mm of approach at 0.01 mm a sample, then 20 N after the first millimetre, along a power of the way. */
function press(seed: number, offsetN = 3, noiseN = 0.3, approachM = 0.002, power = 1): { force: number[]; displacement: number[] } {
  const random = seededRandom(seed);
  const displacement = Array.from({ length: 800 }, (_, index) => index * 1e-5);
  return { displacement, force: displacement.map((x) => offsetN + noiseN * random.normal() + 20 * (Math.max(0, x - approachM) / 0.001) ** power) };
}

// 200 logs: binomial sd of 95 % is 1.5 %
test.each([["a straight line", 1], ["a power of 0.8, as in firm sand", 0.8], ["a square root", 0.5], ["a power of 1.2, as in loose soil", 1.2]])("finds the contact within its stated uncertainty: force sets in along %s", (_name, power) => {
  let held = 0;
  let bias = 0;
  for (let seed = 1; seed <= 200; seed++) {
    const { force, displacement } = press(seed, 3, 0.3, 0.002, power);
    const contact = contactPoint(force, displacement) as NonNullable<ReturnType<typeof contactPoint>>;
    expect(Math.abs(contact.forceZero - 3)).toBeLessThan(0.15);
    const off = contact.displacement - 0.002;
    bias += off / 200;
    if (Math.abs(off) <= 2 * Math.hypot(contact.displacementUncertainty, contact.shapeUncertainty)) held++;
  }
  expect(held).toBeGreaterThanOrEqual(184);
  // the noise alone hides the first 0.06 mm of a straight line; what is left of it is at most two steps of 0.01 mm
  expect(Math.abs(bias)).toBeLessThan(2e-5);
});

/** At rest for 100 samples, then 0.04 mm a sample with 3 µm of noise; force takes hold after the play. */
function sheared(seed: number, playM: number): { force: number[]; displacement: number[] } {
  const random = seededRandom(seed);
  const moved = Array.from({ length: 600 }, (_, i) => Math.max(0, i - 100) * 4e-5);
  return { displacement: moved.map((x) => x + 3e-6 * random.normal()), force: moved.map((x) => 0.06 * random.normal() + 5e3 * Math.max(0, x - playM)) };
}

// 200 logs each: binomial sd of 95 % is 1.5 %; where the truth is the bound itself it cannot lie below, so more may be held
test.each([["with the motion", 0, 1], ["after a little play", 5e-5, 0.995], ["after much play", 3e-4, 0.995]])("a motion that starts bounds the contact from below: force sets in %s", (_when, playM, most) => {
  let held = 0;
  for (let seed = 1; seed <= 200; seed++) {
    const { force, displacement } = sheared(seed, playM);
    const contact = contactPoint(force, displacement) as NonNullable<ReturnType<typeof contactPoint>>;
    expect(contact.displacement).toBeGreaterThan(-1.5e-5);
    if (Math.abs(contact.displacement - playM) <= 1.96 * Math.hypot(contact.displacementUncertainty, contact.shapeUncertainty)) held++;
  }
  expect(held / 200).toBeGreaterThanOrEqual(0.9);
  expect(held / 200).toBeLessThanOrEqual(most);
});

test("a single spike before contact is no contact", () => {
  const { force, displacement } = press(5);
  force[60] = 40;
  expect(contactPoint(force, displacement)?.displacement).toBeGreaterThan(0.00195);
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

test("noise alone is told from a force that rises, from the first sample on or later", () => {
  const random = seededRandom(9);
  const noise = Array.from({ length: 2000 }, () => 3 + 0.3 * random.normal());
  expect(staysFlat(noise)).toBe(true);
  expect(staysFlat(noise.map((value, i) => value + 0.01 * i))).toBe(false);
  expect(staysFlat(press(2).force)).toBe(false);
  expect(staysFlat([1, 1, 1, 1])).toBe(true);
  expect(staysFlat([1, 2, 3, 4])).toBe(false);
});
