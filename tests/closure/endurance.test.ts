import { afterAll, describe, expect, test } from "vitest";
import { reduceDay } from "../../src/day.ts";
import { enduranceFrom } from "../../src/fitting/enduranceFrom.ts";
import type { EnduranceResult, WheelEndurance } from "../../src/processing/enduranceResult.ts";
import { inspection } from "../fitting/inspections.ts";
import { removeDays, writeDay } from "../helpers/tinyDay.ts";
import { doubts, inspectionRows, lossPerMetre, wear, wearDay } from "../helpers/wearDay.ts";
import { truth } from "../processing/endurance/madeEndurance.ts";
import { rigWith } from "../processing/recordings.ts";

function near(estimate: { readonly value: number; readonly standardUncertainty: number | null; readonly method: string }, value: number): void {
  expect(estimate.standardUncertainty, estimate.method).not.toBeNull();
  expect(Math.abs(estimate.value - value), `${estimate.value} ± ${estimate.standardUncertainty}, truth ${value}`).toBeLessThanOrEqual(3 * (estimate.standardUncertainty as number));
}

afterAll(removeDays);

test("a made wear day: from weighings with soil and a log of loads to wear rate, mass at the mission, damage and demonstration", async () => {
  const day = await reduceDay(writeDay(wearDay()));
  const { wheels, lives, demonstration } = day.endurance as EnduranceResult;
  expect(day.campaign.issues).toEqual([]);
  const [first, second] = wheels as [WheelEndurance, WheelEndurance];
  near(first.massLossPerDistance, lossPerMetre);
  near(second.massLossPerDistance, lossPerMetre);
  near(first.specificWear, wear.rate);
  expect((first.specificWear.standardUncertainty as number) / first.specificWear.value).toBeLessThan(0.25);
  expect(first.specificWear.budget.map((row) => row.cause).join()).toContain("density of what wears");
  const mass = first.trends.find((trend) => trend.quantity === "mass");
  near(mass?.atMission ?? first.specificWear, wear.newMassKg - lossPerMetre * wear.missionM);
  expect(mass?.fit.findings.find(({ code }) => code === "mission-extrapolated")).toMatchObject({ severity: "look" });
  // Two legs of 100 s at 1 rad/s: 24 lugs a turn make ranges of 4 N, and the wheel is put down and lifted once.
  const lugs = (24 * 200) / (2 * Math.PI);
  const damage = (lugs * 0.04 ** 4 + 0.62 ** 4) / 1e6;
  expect(first.damage?.damage.value).toBeGreaterThan(0.9 * damage);
  expect(first.damage?.damage.value).toBeLessThan(1.1 * damage);
  const path = 200 * 0.1 * (1 - truth.slip(0.5));
  expect((first.damage?.atMission.value as number) / (first.damage?.damage.value as number)).toBeCloseTo(wear.missionM / path, -1);
  expect(second.damage).toBeNull();
  expect(second.specificWear.method).toContain("no endurance run");
  expect(lives.fit.verdict).toBe("undetermined");
  // Two wheels, three quarters of a mission each.
  expect(demonstration.reliability).toBeCloseTo(0.1 ** (1 / (2 * 0.75 ** 2)), 12);
});

describe("intervals", () => {
  test("the mass at the mission distance lies inside the band of the trend, a third beyond the data, the choice of the form included", () => {
    const rig = rigWith({ endurance: { missionDistance: wear.missionM, massUncertainty: doubts.massKg, soilMassUncertainty: doubts.soilMassKg } });
    const expected = wear.newMassKg - lossPerMetre * wear.missionM;
    let inside = 0;
    let lines = 0;
    const tries = 300;
    for (let seed = 1; seed <= tries; seed++) {
      const inspections = inspectionRows("W1", seed).map((row) => {
        const [, km, mass, soil] = row.split(",").map(Number) as [number, number, number, number];
        return inspection(1000 * km, { massKg: mass / 1000, soilMassKg: soil / 1000 });
      });
      const trend = enduranceFrom([], { rig, inspections })?.wheels[0]?.trends[0];
      if (trend?.form === "line") lines++;
      const band = trend?.band;
      if (band != null && (band.low.at(-1) as number) <= expected && expected <= (band.high.at(-1) as number)) inside++;
    }
    expect(lines / tries).toBeGreaterThan(0.95);
    // The stated uncertainties are right and the interval is Student's with four degrees of freedom: it errs on the wide side.
    expect(inside / tries).toBeGreaterThan(0.94);
  });
});
