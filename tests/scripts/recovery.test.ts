import { describe, expect, test } from "vitest";
import recovered from "../../scripts/recovery/wheelSoilDay.ts";
import { binomialBand, together } from "../../scripts/coverage/tally.ts";
import type { Tally } from "../../scripts/coverage/tally.ts";

const many = (day: "one load" | "three loads", count: number): Tally => together(Array.from({ length: count }, (_, i) => recovered({ day, seed: i + 1 })));

describe("soils drawn as the beliefs say soils are; npm run recovery makes 200 days", () => {
  test("one load: n is nowhere printed as determined", () => {
    const { trials, missing } = many("one load", 3);
    expect(trials.filter(({ name, where }) => name === "n" && where.startsWith("determined"))).toEqual([]);
    expect(missing).toContain("n");
  });

  test("three loads: n and K are printed, and the intervals of all constants hold the truth", () => {
    const { trials } = many("three loads", 4);
    for (const name of ["n", "K"]) expect(trials.filter((trial) => trial.name === name)).toHaveLength(4);
    const [low] = binomialBand(trials.length, 0.95, 0.0005);
    expect(trials.filter(({ inside }) => inside).length).toBeGreaterThanOrEqual(low);
  });
});
