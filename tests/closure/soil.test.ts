import { beforeAll, describe, expect, test } from "vitest";
import { jointRegionName, soilDay } from "../../scripts/coverage/soilDay.ts";
import type { Tally } from "../../scripts/coverage/tally.ts";
import { holds, manyDays, namesOf } from "./holds.ts";

let counted: Tally;
beforeAll(async () => {
  counted = await manyDays(soilDay, 200);
}, 600_000);

describe("a made soil comes back through the whole pipeline", () => {
  const ofRuns = ["sinkageExponent", "plateStiffness", "pressureAt10mm", "shearStrength", "shearModulus", "shearModulusWeighted", "normalStress"];
  const ofSoil = ["n of the soil", "k_c of the soil", "k_φ of the soil", "p at 10 mm of a plate width", "n of a plate width", "c of the soil", "φ of the soil", "K at a normal stress", "strength at a normal stress", jointRegionName];

  for (const name of [...ofRuns, ...ofSoil]) test(`the truth lies in the 95 % interval as often as stated: ${name}`, () => holds(counted, name));

  test("every measure whose truth is known was looked at", () => expect(namesOf(counted)).toEqual([...ofRuns, ...ofSoil].sort()));

  test("nothing is left undetermined, and no sound run is held back", () => {
    expect(counted.missing).toEqual([]);
    expect(counted.heldBack).toEqual([]);
  });
});
