import { expect, test } from "vitest";
import { seededRandom } from "../../../src/numerics/random.ts";
import { contactEdge } from "../../../src/processing/conditioning/contactEdge.ts";
import type { DropSignal } from "../../../src/processing/conditioning/dropSignal.ts";

const intervalS = 1e-4;
const level = -9.81;

/** A hub at 1 m/s meets or leaves the ground near 20 ms; `push` of the time in contact adds to the level. */
function signalOf(seed: number, edgeS: number, contact: 1 | -1, push: (t: number) => number, noise = 0.25): DropSignal {
  const random = seededRandom(seed);
  const timesS = Float64Array.from({ length: 400 }, (_, i) => i * intervalS);
  const acceleration = timesS.map((t) => level + (contact * (t - edgeS) > 0 ? push(contact * (t - edgeS)) : 0) + noise * random.normal());
  const speed = timesS.map(() => -contact);
  return { timesS, acceleration, speed, path: timesS.map((t) => -contact * t), intervalS, noise, lag1: 0 } as unknown as DropSignal;
}

interface Told {
  readonly meanZ: number;
  readonly rmsZ: number;
  readonly meanSamples: number;
}

function told(contact: 1 | -1, push: (t: number) => number, reachS: number, noise?: number): Told {
  const days = 300;
  let [z, zz, off] = [0, 0, 0];
  for (let seed = 1; seed <= days; seed++) {
    const random = seededRandom(seed + 900);
    const edgeS = 0.02 + intervalS * random.uniform();
    const event = { timeS: edgeS + 2 * intervalS * (random.uniform() - 0.5), uncertaintyS: intervalS, cause: "time of contact 1" };
    const found = contactEdge(signalOf(seed, edgeS, contact, push, noise), event, level, reachS, contact);
    const error = found.timeS - edgeS;
    z += error / found.uncertaintyS / days;
    zz += (error / found.uncertaintyS) ** 2 / days;
    off += error / intervalS / days;
  }
  return { meanZ: z, rmsZ: Math.sqrt(zz), meanSamples: off };
}

test.each([
  ["a touch that jumps and rises", 1, (t: number) => 20 + 3e4 * t, 0.3],
  // a jump cannot be below nothing, which makes a touch without one late by up to its doubt
  ["a touch that only rises", 1, (t: number) => 2e4 * t, 0.7],
  ["a lift-off that fades straight", -1, (t: number) => 1e4 * t, 0.5],
  ["a lift-off whose push bends by a fifth", -1, (t: number) => 1e4 * t * (1 + 0.2 * (t / 0.0024)), 0.5],
] as const)("%s is found within its doubt, in the mean as well", (_what, contact, push, most) => {
  const { meanZ, rmsZ } = told(contact, push, 2e-3);
  expect(Math.abs(meanZ)).toBeLessThan(most);
  expect(rmsZ).toBeLessThan(1.2);
  expect(rmsZ).toBeGreaterThan(0.6);
});

test("a jump far above the noise lies anywhere between two samples", () => {
  const edgeS = 0.02 + 0.3 * intervalS;
  const found = contactEdge(signalOf(1, edgeS, 1, () => 200), { timeS: edgeS, uncertaintyS: intervalS, cause: "c" }, level, 2e-3, 1);
  expect(found.timeS).toBeCloseTo(0.02 + intervalS / 2, 5);
  expect(found.uncertaintyS / intervalS).toBeCloseTo(1 / Math.sqrt(12), 1);
});

test("a push that ends at once is not mistaken for one that fades", () => {
  expect(Math.abs(told(-1, () => 9.81, 2e-3, 0.05).meanSamples)).toBeLessThan(0.1);
});

test("too few samples around the event leave it as it was", () => {
  const event = { timeS: 0, uncertaintyS: intervalS, cause: "c" };
  const signal = signalOf(1, 0.02, 1, () => 20);
  expect(contactEdge({ ...signal, acceleration: signal.acceleration.map(() => Number.NaN) }, event, level, 2e-3, 1)).toBe(event);
});
