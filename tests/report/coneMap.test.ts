import { expect, test } from "vitest";
import { coneMap } from "../../src/report/figures/coneMap.ts";
import { hostileName, sampleDay } from "./sampleDay.ts";

test("a map shows each place with its mean index, and leaves out a profile that states none", () => {
  const drawn = coneMap(sampleDay()).html;
  expect(drawn).toContain("left: 234.0 kPa");
  expect(drawn).toContain("right: 225.0 kPa");
  expect(drawn).toContain("along the bed [m]");
  expect(drawn).not.toContain(hostileName);
  expect(drawn).not.toContain("229");
});

test("no map is drawn where no reading states its place", () => {
  const day = sampleDay();
  expect(coneMap({ ...day, cones: day.cones.map((cone) => ({ ...cone, profiles: cone.profiles.map((profile) => ({ ...profile, place: null })) })) }).html).toBe("");
});
