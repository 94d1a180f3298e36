import { beforeAll, describe, expect, test } from "vitest";
import { dropHeights } from "../../scripts/demo/dayPlan.ts";
import { wheels } from "../../scripts/demo/wheelTruth.ts";
import type { WheelTruth } from "../../scripts/demo/wheelTruth.ts";
import { holds, measured, note, tally } from "./coverage.ts";
import { plan, reduceMade } from "./madeFolder.ts";
import { truthOf } from "./truthOf.ts";

const seeds = 200;
const counted = tally();
const notGo: string[] = [];

async function oneSeed(seed: number): Promise<void> {
  const wheel = wheels[seed % wheels.length] as WheelTruth;
  const dropHeightM = dropHeights[seed % dropHeights.length] as number;
  const { day, truths } = await reduceMade(seed, [plan({ id: "D", kind: "drop", wheel: wheel.id, dropHeightM })]);
  for (const run of day.runs) if (run.verdict !== "go") notGo.push(`seed ${seed}, ${wheel.id} from ${dropHeightM} m: ${run.reasons[0]}`);
  for (const [name, value] of truthOf("drop", truths.get("D") ?? {}, wheel)) note(counted, name, measured(day, "D", name), value, `seed ${seed}, ${wheel.id} from ${dropHeightM} m`);
}

beforeAll(async () => {
  for (let seed = 1; seed <= seeds; seed++) await oneSeed(seed);
}, 600_000);

/** Why an interval is rightly wider than its errors. */
const wide: Readonly<Record<string, string>> = {
  restitutionFromFlightTimes: "the impact speed's and the flight's causes are taken as one-sided bounds: when the wheel leaves and touches is known to the smoothing only, and how far it is still pressed in as it leaves is granted a wide range",
  restitutionSecondImpact: "as for the first contact, from two flights",
};

describe("a made wheel dropped on a made table comes back through the whole pipeline", () => {
  const names = ["impactSpeed", "restitution", "restitutionFromVelocities", "restitutionFromFlightTimes", "restitutionFromHeights", "restitutionSecondImpact", "reboundSpeed", "velocityChange", "absorbedShare", "peakAcceleration", "dampingRatioDecrement", "dampingRatioFit", "naturalFrequency"];

  for (const name of names) test(`the truth lies in the 95 % interval as often as stated: ${name}`, () => holds(counted, name, wide[name]));

  test("every measure whose truth is known was looked at", () => expect([...counted.trials.keys()].sort()).toEqual([...names].sort()));

  test("nothing is left undetermined, and no sound drop is held back", () => {
    expect(counted.missing).toEqual([]);
    expect(notGo).toEqual([]);
  });
});
