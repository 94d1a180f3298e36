import { beforeAll, describe, expect, test } from "vitest";
import { dropDay } from "../../scripts/coverage/dropDay.ts";
import type { Tally } from "../../scripts/coverage/tally.ts";
import { holds, manyDays, namesOf } from "./holds.ts";

let counted: Tally;
beforeAll(async () => {
  counted = await manyDays(dropDay, 206);
}, 600_000);

describe("a made wheel dropped on a made table comes back through the whole pipeline", () => {
  const names = ["impactSpeed", "restitution", "restitutionFromVelocities", "restitutionFromFlightTimes", "restitutionFromHeights", "restitutionSecondImpact", "reboundSpeed", "velocityChange", "absorbedShare", "peakAcceleration", "peakForce", "largestCompression", "compressionFromHeight", "impactEnergy", "dampingRatioDecrement", "dampingRatioFit", "naturalFrequency"];

  for (const name of names) test(`the truth lies in the 95 % interval as often as stated: ${name}`, () => holds(counted, name));

  test("every measure whose truth is known was looked at", () => expect(namesOf(counted)).toEqual([...names].sort()));

  test("nothing is left undetermined but a ringing too small to count, and no sound drop is held back", () => {
    const small = counted.missing.filter((line) => line.includes("clear of the noise after the last flight: 2;"));
    expect(counted.missing.filter((line) => !small.includes(line))).toEqual([]);
    // three measures each
    expect(small.length).toBeLessThanOrEqual(3 * 5);
    expect(counted.heldBack).toEqual([]);
  });
});
