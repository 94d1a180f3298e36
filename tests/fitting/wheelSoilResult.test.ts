import { beforeAll, describe, expect, test } from "vitest";
import { soilBeliefs } from "../../src/fitting/soilBeliefs.ts";
import { doWheelSoilJob } from "../../src/fitting/wheelSoilJobs.ts";
import { wheelSoilFrom } from "../../src/fitting/wheelSoilResult.ts";
import type { WheelSoilOptions } from "../../src/fitting/wheelSoilResult.ts";
import type { WheelSoilResult } from "../../src/processing/wheelSoilResult.ts";
import { madeWheelRuns } from "../helpers/madeWheelRuns.ts";

// as between threads: what comes back holds copies of what went in
const options: WheelSoilOptions = { beliefs: soilBeliefs(null, 0.1, {}), transfer: { plate: null, shearDeg: null }, hands: (jobs) => Promise.resolve(structuredClone(jobs).map(doWheelSoilJob)), steps: 60, robust: false, replicates: 12 };
const one = madeWheelRuns({ seed: 11, loads: [60], slips: [-0.1, 0.05, 0.15, 0.3, 0.5] });
const three = madeWheelRuns({ seed: 11, loads: [30, 60, 100], slips: [0.05, 0.15, 0.4] });
let atOne: WheelSoilResult;
let atThree: WheelSoilResult;

beforeAll(async () => {
  atOne = await wheelSoilFrom(one, [], options);
  atThree = await wheelSoilFrom(three, [], options);
}, 120_000);

const of = (result: WheelSoilResult, symbol: string) => result.parameters.find((parameter) => parameter.symbol === symbol);

describe("one load", () => {
  test("n is not determined and has no bare number", () => {
    expect(of(atOne, "n")).toMatchObject({ share: "undetermined", estimate: { standardUncertainty: null } });
    expect(Number.isNaN(of(atOne, "n")?.estimate.value)).toBe(true);
    expect(of(atOne, "n")?.sentence).toContain("not determined by these data");
  });

  test("runs at another load would separate n, plates too", () => {
    const j = atOne.parameters.findIndex(({ symbol }) => symbol === "n");
    const ratio = (name: RegExp): number => atOne.nextTests.find((next) => name.test(next.name))?.ratios[j] ?? Number.NaN;
    expect(ratio(/^runs at 1.2e\+2 N|^runs at 120 N/)).toBeLessThan(0.7);
    expect(ratio(/^plates of one width/)).toBeLessThan(0.95);
  });

  test("a load cannot be held out when there is one; slips can", () => {
    expect(atOne.scores.find(({ model, heldOut }) => model === "stress integrals, wider circle" && heldOut === "load")?.points).toBe(0);
    expect(atOne.scores.find(({ model, heldOut }) => model === "stress integrals, wider circle" && heldOut === "slip")?.points).toBeGreaterThan(5);
  });
});

describe("three loads", () => {
  test("the constants stand, with their unit and what was believed", () => {
    expect(of(atThree, "n")?.share).toBe("determined");
    expect(of(atThree, "n")?.estimate.value).toBeCloseTo(1.05, 0);
    expect(of(atThree, "φ")?.estimate.unit).toBe("rad");
    expect(of(atThree, "p₁₀")?.believed.reason.length).toBeGreaterThan(5);
  });

  test("every model is scored on what it had not seen", () => {
    expect(new Set(atThree.scores.map(({ model }) => model)).size).toBe(3);
    expect(atThree.scores).toHaveLength(9);
    const pull = (model: string): number => atThree.scores.find((score) => score.model === model && score.heldOut === "load")?.error.pull ?? Number.NaN;
    expect(pull("stress integrals, wider circle")).toBeLessThan(pull("resistive forces"));
    expect(pull("stress integrals, wider circle")).toBeLessThan(pull("plain curve"));
  });

  test("forecasts beside the points, one panel a wheel and load; the range is said", () => {
    expect(atThree.forecasts).toHaveLength(3);
    for (const { points, bands } of atThree.forecasts) {
      expect(points.pull).toHaveLength(3);
      bands.pull.low.forEach((low, i) => expect(low).toBeLessThan(bands.pull.high[i] as number));
    }
    expect(atThree.range.loadN).toEqual([30, 100]);
  });

  test("short chains are said not to have settled; the draws are those of the parameters", () => {
    expect(atThree.posterior.converged).toBe(false);
    expect(atThree.posterior.sentence).toContain("have not settled");
    expect(atThree.posterior.draws[0]).toHaveLength(15);
    expect(atThree.posterior.drawColumns.slice(-4)).toEqual(["flattening", "pull", "torque", "sinkage"]);
  });
});

test("too few runs: said", async () => {
  const few = await wheelSoilFrom(one.slice(0, 2), [], options);
  expect(few).toMatchObject({ verdict: "undetermined", sentence: "2 usable traction runs; at least 4 are needed.", parameters: [] });
});
