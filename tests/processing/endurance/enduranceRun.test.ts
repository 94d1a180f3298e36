import { describe, expect, it } from "vitest";
import type { Estimate } from "../../../src/core/estimate.ts";
import type { RunResult } from "../../../src/processing/dayResult.ts";
import { reduceRun } from "../../../src/processing/reduceRun.ts";
import { rigWith, wheel } from "../recordings.ts";
import { inPieces, madeLog, plan, references, rig, truth } from "./madeEndurance.ts";

const unused = (): never => {
  throw new Error("an endurance log is not read whole");
};
const reduce = (table = madeLog(), rows = 1000, rigOf = rig): Promise<RunResult> => reduceRun(plan, wheel, rigOf, references, unused, inPieces(table, rows));
const of = (result: RunResult, name: string): Estimate => {
  const found = result.measures.find((measure) => measure.name === name)?.estimate;
  if (found === undefined) throw new Error(`${name}: not among ${result.measures.map((measure) => measure.name).join(", ")}; ${result.reasons.join(" ")}`);
  return found;
};
/** The truth lies within so many standard uncertainties. */
function expectTruth(result: RunResult, name: string, value: number, within = 3): void {
  const estimate = of(result, name);
  expect(estimate.standardUncertainty, `${name}: ${estimate.method}`).not.toBeNull();
  expect(Math.abs(estimate.value - value), `${name} ${estimate.value} ± ${estimate.standardUncertainty}, truth ${value}`).toBeLessThanOrEqual(within * (estimate.standardUncertainty as number) + 1e-9);
}

// 4 legs of 200 s at 1 rad/s; the closed forms of the made run.
const turned = 800;
const meanSlip = truth.slip(0.5);
const travelled = turned * 0.1 * (1 - meanSlip);

describe("an endurance run: out and home four times, with rests, a drifting zero and a trend", () => {
  it("gives path, revolutions and time of the wheel's turning alone", async () => {
    const result = await reduce();
    expectTruth(result, "distance", travelled);
    expectTruth(result, "revolutions", turned / (2 * Math.PI));
    expectTruth(result, "runningTime", 800);
    // Rests and reversals cost a few hundredths of a turn in all.
    expect(of(result, "revolutions").value).toBeCloseTo(turned / (2 * Math.PI), 0);
    expect(of(result, "runningTime").value).toBeGreaterThan(785);
  });

  it("counts load, pull and torque from the zeros at both ends of the log, along the rolling", async () => {
    const result = await reduce();
    expectTruth(result, "verticalLoad", truth.load);
    expectTruth(result, "drawbarPull", truth.pull(0.5));
    expectTruth(result, "pullCoefficient", truth.pull(0.5) / truth.load);
    expectTruth(result, "wheelTorque", truth.torque - 0.1);
    expectTruth(result, "verticalLoadScatter", 2 / Math.SQRT2);
    expectTruth(result, "slip", meanSlip);
    // ∫ T dθ with the drag, and ∫ P dx with P and dx/dθ both straight lines in θ.
    expectTruth(result, "axleEnergy", truth.torque * turned);
    const pullWork = turned * 0.1 * (12 * (1 - 0.2) - (12 * 0.05 + 3 * 0.8) / 2 + (3 * 0.05) / 3);
    expectTruth(result, "pullWork", pullWork);
    expect(of(result, "pullWork").value).toBeCloseTo(pullWork, -1);
    expect(result.findings.map(({ code }) => code)).not.toContain("energy-excess");
    expectTruth(result, "energyPerDistance", ((truth.torque - 0.1) * turned) / travelled);
  });

  it("cannot give more at the drawbar than the axle received: a torque counted backwards is rejected", async () => {
    const codes = (result: RunResult): string[] => result.findings.filter(({ severity }) => severity === "reject").map(({ code }) => code);
    const backwards = structuredClone(rig);
    (backwards.loggers.main?.channels.wheelTorque as { sign: number }).sign = -1;
    expect(codes(await reduce(madeLog(), 100_000, backwards))).toContain("energy-excess");
  });

  it("gives the change over the run", async () => {
    const result = await reduce();
    expectTruth(result, "slipChange", 0.05);
    expectTruth(result, "drawbarPullChange", -3);
    expectTruth(result, "verticalLoadChange", 0);
    expect(of(result, "drawbarPullChange").standardUncertainty).toBeLessThan(0.1);
  });

  it("counts the rises of the load through its levels", async () => {
    const result = await reduce();
    const rises = result.curves.find(({ name }) => name === "verticalLoadRises");
    const at = (level: number): number => {
      const values = rises?.x.values as number[];
      return rises?.y.values[values.indexOf(values.reduce((best, value) => (Math.abs(value - level) < Math.abs(best - level) ? value : best)))] as number;
    };
    // 24 lugs a turn lift the load through its mean 24 times; it is put down once.
    expect(at(60)).toBeGreaterThan((0.97 * 24 * turned) / (2 * Math.PI));
    expect(at(60)).toBeLessThan((1.01 * 24 * turned) / (2 * Math.PI));
    expect(at(30)).toBe(1);
  });

  it("counts the cycles of the load by rain-flow: the lugs' ripple, and the wheel put down once", async () => {
    const cycles = (await reduce()).curves.find(({ name }) => name === "loadCycles");
    const between = (low: number, high: number): number => (cycles?.x.values as number[]).reduce((sum, range, i) => (range >= low && range <= high ? sum + (cycles?.y.values[i] as number) : sum), 0);
    const lugs = (24 * turned) / (2 * Math.PI);
    expect(between(3, 5)).toBeGreaterThan(0.99 * lugs);
    expect(between(3, 5)).toBeLessThan(1.01 * lugs);
    // put down and lifted: two half cycles of load and ripple's upper half
    expect(between(60, 65)).toBe(1);
  });

  it("is the same in pieces of any length, and whole", async () => {
    const table = madeLog({ legs: 2, legS: 60 });
    const whole = await reduce(table, table.timesS.length);
    for (const rows of [101, 1500]) {
      const pieces = await reduce(table, rows);
      for (const { name, estimate } of whole.measures) expect(of(pieces, name).value, name).toBeCloseTo(estimate.value, 9);
      expect(pieces.curves.find(({ name }) => name === "verticalLoadRises")).toEqual(whole.curves.find(({ name }) => name === "verticalLoadRises"));
    }
  });

  it("of less than two revolutions has values without uncertainty, of less than one nothing", async () => {
    const short = await reduce(madeLog({ legs: 1, legS: 8 }));
    expect(of(short, "verticalLoad")).toMatchObject({ value: expect.closeTo(60, 0), standardUncertainty: null });
    expect(of(short, "verticalLoadChange").standardUncertainty).toBeNull();
    const none = await reduce(madeLog({ legs: 1, legS: 4 }));
    expect(none).toMatchObject({ verdict: "repeat", measures: [] });
    expect(none.reasons.join()).toContain("at least one whole revolution");
  });

  it("refuses a clock that goes back, with its row in the log, and tells a pause", async () => {
    const back = madeLog({ legs: 1, legS: 60 });
    (back.timesS as Float64Array)[2500] = 1;
    expect((await reduce(back, 1000)).issues).toMatchObject([{ code: "time-backwards", at: "logs/E1.csv, data row 2501, time column" }]);
    const paused = madeLog({ legs: 1, legS: 60 });
    (paused.timesS as Float64Array).subarray(1500).forEach((t, i, later) => (later[i] = t + 7));
    const result = await reduce(paused, 1000);
    expect(result.findings.filter(({ code }) => code === "gap")).toMatchObject([{ message: expect.stringContaining("in 1 of the") }]);
    expect(of(result, "runningTime").method).toContain("left out 7.0 s");
  });

  it("asks for one logger, and for a range where loads are to be counted", async () => {
    expect((await reduce(madeLog(), 1000, rigWith({ loggers: {} }))).issues).toMatchObject([{ code: "one-logger" }]);
    const bare = structuredClone(rig);
    const channel = bare.loggers["main"]?.channels["verticalLoad"] as { range?: unknown };
    delete channel.range;
    const result = await reduce(madeLog({ legs: 1, legS: 60 }), 1000, bare);
    expect(result.findings.map(({ code }) => code)).toContain("load-levels");
  });
});
