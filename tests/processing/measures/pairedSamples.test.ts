import { expect, test } from "vitest";
import { pairedSamples } from "../../../src/processing/measures/pairedSamples.ts";
import { plan, preparedRun } from "../../helpers/pressRun.ts";

const force = { name: "pressForce", unit: "N" } as const;
const displacement = { name: "pressDisplacement", unit: "m" } as const;

test("channels of one logger pair as they stand, missing values left out", () => {
  const run = preparedRun(plan("plate"), { pressForce: { unit: "N", samples: [1, Number.NaN, 3] }, pressDisplacement: { unit: "m", samples: [0.1, 0.2, 0.3] } });
  const pairs = pairedSamples(run, force, displacement);
  expect(pairs?.first).toEqual([1, 3]);
  expect(pairs?.second).toEqual([0.1, 0.3]);
  expect(pairs?.timesS).toEqual([0, 0.02]);
});

test("the second logger is read between its samples, and only where both recorded", () => {
  const one = preparedRun(plan("plate"), { pressForce: { unit: "N", samples: [1, 2, 3, 4, 5] } }, 10);
  const other = preparedRun(plan("plate"), { pressDisplacement: { unit: "m", samples: [0, 1, 2] } }, 5);
  const pairs = pairedSamples({ ...one, recordings: [...one.recordings, ...other.recordings] }, force, displacement);
  expect(pairs?.first).toEqual([1, 2, 3, 4, 5]);
  expect(pairs?.second.map((value) => Math.round(value * 1e9) / 1e9)).toEqual([0, 0.5, 1, 1.5, 2]);
  const short = preparedRun(plan("plate"), { pressDisplacement: { unit: "m", samples: [0, 1] } }, 5);
  expect(pairedSamples({ ...one, recordings: [...one.recordings, ...short.recordings] }, force, displacement)?.first).toEqual([1, 2, 3]);
});

test("a channel that nobody recorded gives null", () => {
  expect(pairedSamples(preparedRun(plan("plate"), { pressForce: { unit: "N", samples: [1] } }), force, displacement)).toBeNull();
});
