import { beforeAll, describe, expect, test } from "vitest";
import { benchDay } from "../../scripts/coverage/benchDay.ts";
import { binomialBand, coverage, sentence } from "../../scripts/coverage/tally.ts";
import type { Tally } from "../../scripts/coverage/tally.ts";
import { manyDays, namesOf } from "./holds.ts";

const days = 20;
let counted: Tally;
beforeAll(async () => {
  counted = await manyDays(benchDay, days);
}, 600_000);

describe("a made wheel under the press at one place of its rim, on pad and glass plate, and driven against a step, comes back through the whole pipeline", () => {
  const names = ["deflection", "secantStiffness", "loopEnergy", "settlingPerCycle", "settlingTotal", "creepDuringDwell", "climbed", "hubRise", "peakTorque", "driveEnergy", ...["contactArea", "contactLength", "meanPressure", "peakPressure", "footprintForce"].map((name) => `${name}, pad`), ...["contactArea", "contactLength", "meanPressure"].map((name) => `${name}, photograph`)];

  for (const name of names) test(`the truth lies in the 95 % interval about as often as stated: ${name}`, () => {
    const { inside, count } = coverage(counted, name);
    expect(count).toBe(days);
    // twenty days cannot tell 95 % from 100 %: only the lower end is asked for; npm run coverage makes more
    expect(inside, sentence(counted, name)).toBeGreaterThanOrEqual(binomialBand(count, 0.95, 0.0005)[0]);
  });

  test("every measure whose truth is known was looked at", () => expect(namesOf(counted)).toEqual([...names].sort()));

  test("nothing is left undetermined, and no sound run is held back", () => {
    expect(counted.missing).toEqual([]);
    expect(counted.heldBack).toEqual([]);
  });
});
