import { beforeAll, describe, expect, test } from "vitest";
import { curveDay } from "../../scripts/coverage/curveDay.ts";
import { sweepDay } from "../../scripts/coverage/sweepDay.ts";
import { binomialBand, coverage, sentence } from "../../scripts/coverage/tally.ts";
import type { Tally } from "../../scripts/coverage/tally.ts";
import { holds, manyDays, namesOf } from "./holds.ts";

const days = 20;
let curves: Tally;
let sweeps: Tally;
beforeAll(async () => {
  curves = await manyDays(curveDay, days);
  sweeps = await manyDays(sweepDay, 200);
}, 600_000);

describe("conditions and curves over made runs", () => {
  const measures = ["pullCoefficient of a condition", "grossTractionRatio of a condition", "pull coefficient at 20 % slip", "pull coefficient at 60 % slip", "best efficiency", "slip of the best efficiency"];
  const names = ["", ", beds shared"].flatMap((plan) => measures.map((measure) => `${measure}${plan}`));

  for (const name of names) test(`the truth lies in the 95 % interval about as often as stated: ${name}`, () => {
    const { inside, count } = coverage(curves, name);
    // now and then the best efficiency stands at the edge of the slips and is rightly not given
    expect(count).toBeGreaterThanOrEqual(0.8 * days);
    // twenty days cannot tell 95 % from 100 %: only the lower end is asked for; npm run coverage makes more
    expect(inside, sentence(curves, name)).toBeGreaterThanOrEqual(binomialBand(count, 0.95, 0.0005)[0]);
  });

  test("every measure whose truth is known was looked at", () => expect(namesOf(curves)).toEqual([...names].sort()));
});

describe("made sweeps", () => {
  const names = ["lag of the pull, sweep", "hysteresis, sweep", "pull at 20 % slip, sweep", "slip rate, sweep"];

  for (const name of names) test(`the truth lies in the 95 % interval as often as stated: ${name}`, () => holds(sweeps, name));

  test("every measure whose truth is known was looked at", () => expect(namesOf(sweeps)).toEqual([...names].sort()));
});
