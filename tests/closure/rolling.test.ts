import { beforeAll, describe, expect, test } from "vitest";
import { rollingDay } from "../../scripts/coverage/rollingDay.ts";
import { average } from "../../scripts/coverage/tally.ts";
import type { Tally } from "../../scripts/coverage/tally.ts";
import { holds, manyDays, namesOf } from "./holds.ts";

let counted: Tally;
beforeAll(async () => {
  counted = await manyDays(rollingDay, 200);
}, 600_000);

/** Why an interval is rightly wider than its errors. */
const sliding =
  "the doubt is the scatter between revolutions, mostly the drive's speed ripple, which comes back to the same angle and so leaves the mean sooner than chance would; and the radius of a flexible wheel is granted any share of its deflection";
const touching = "the first touch grants any load from a straight spring to the square of the indentation, and the made wheels lie between";
const zeroing = "the zero's doubt allows for a drift that is not straight in time, and the made one is; it weighs most where torque is small";
const wide: Readonly<Record<string, string>> = { "energyPerDistance, driven": zeroing, slip: sliding, skid: sliding, hubDrop: touching, sinkageRunning: touching, sinkageStatic: touching };

describe("a made wheel on made soil comes back through the whole pipeline", () => {
  const both = ["carriageSpeed", "wheelSpeed", "verticalLoad", "drawbarPull", "pullCoefficient", "wheelTorque", "grossTractionRatio", "motionResistanceRatio", "powerNumber", "energyPerDistance", "slipRadius", "hubDrop", "sinkageRunning", "sinkageStatic"];
  const names = [
    ...["deflection", "secantStiffness", "tangentStiffness", "loopEnergy"].map((name) => `${name}, loadDeflection`),
    ...["rollingRadius", "carriageSpeed", "wheelSpeed", "verticalLoad"].map((name) => `${name}, hardFloor`),
    ...["freeSpinDrag", "wheelSpeed"].map((name) => `${name}, freeSpin`),
    ...both.flatMap((name) => [`${name}, driven`, `${name}, braked`]),
    "slip, driven", "skid, braked", "tractiveEfficiency, driven",
  ];

  for (const name of names) test(`the truth lies in the 95 % interval as often as stated: ${name}`, () => holds(counted, name, wide[name] ?? wide[name.split(",")[0] as string]));

  test("every measure whose truth is known was looked at", () => expect(namesOf(counted)).toEqual([...names].sort()));

  test("nothing is left undetermined, and no sound run is held back", () => {
    expect(counted.missing).toEqual([]);
    expect(counted.heldBack).toEqual([]);
  });

  for (const name of ["pull as a share of the load", "slip", "skid"]) {
    test(`no bias of 0.005: ${name}`, () => expect(Math.abs(average(counted.biases.filter((bias) => bias.name === name).map((bias) => bias.error)))).toBeLessThan(0.005));
  }
});
