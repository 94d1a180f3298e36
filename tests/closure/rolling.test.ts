import { beforeAll, describe, expect, test } from "vitest";
import { rollingDay } from "../../scripts/coverage/rollingDay.ts";
import { average } from "../../scripts/coverage/tally.ts";
import type { Tally } from "../../scripts/coverage/tally.ts";
import { holds, manyDays, namesOf } from "./holds.ts";

let counted: Tally;
beforeAll(async () => {
  counted = await manyDays(rollingDay, 200);
}, 600_000);

describe("a made wheel on made soil comes back through the whole pipeline", () => {
  const both = ["carriageSpeed", "wheelSpeed", "verticalLoad", "drawbarPull", "pullCoefficient", "wheelTorque", "grossTractionRatio", "motionResistanceRatio", "powerNumber", "energyPerDistance", "slipRadius", "hubDrop", "sinkageRunning", "sinkageStatic"];
  const names = [
    ...["deflection", "secantStiffness", "tangentStiffness", "loopEnergy"].map((name) => `${name}, loadDeflection`),
    ...["rollingRadius", "carriageSpeed", "wheelSpeed", "verticalLoad"].map((name) => `${name}, hardFloor`),
    ...["freeSpinDrag", "wheelSpeed"].map((name) => `${name}, freeSpin`),
    ...both.flatMap((name) => [`${name}, driven`, `${name}, braked`]),
    "slip, driven", "skid, braked", "tractiveEfficiency, driven",
  ];

  for (const name of names) test(`the truth lies in the 95 % interval as often as stated: ${name}`, () => holds(counted, name));

  test("every measure whose truth is known was looked at", () => expect(namesOf(counted)).toEqual([...names].sort()));

  test("nothing is left undetermined, and no sound run is held back", () => {
    expect(counted.missing).toEqual([]);
    expect(counted.heldBack).toEqual([]);
  });

  for (const name of ["pull as a share of the load", "slip", "skid"]) {
    test(`no bias of 0.005: ${name}`, () => expect(Math.abs(average(counted.biases.filter((bias) => bias.name === name).map((bias) => bias.error)))).toBeLessThan(0.005));
  }
});
