import { describe, expect, test } from "vitest";
import { pullCurvesFrom } from "../../src/fitting/pullCurves.ts";
import { scatterSizes } from "../../src/fitting/curveScatter.ts";
import { sweepPoints } from "../../src/fitting/sweepPoints.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { agrees } from "../helpers/agrees.ts";
import { plan, rig } from "../helpers/pressRun.ts";
import { ownRow, runResult } from "../helpers/runResult.ts";
import { sweptRun } from "../helpers/sweptRun.ts";
import { point, truth } from "./slipPoints.ts";

const cell = { cause: "calibration CELL-1, drawbarPull", effect: 0.002, sharedBy: "calibration CELL-1", degreesOfFreedom: Infinity };
const zero = { cause: "zero of drawbarPull, S1", effect: 0.003, sharedBy: null, degreesOfFreedom: Infinity };

describe("a sweep as points of a curve over runs", () => {
  const { points } = sweepPoints(sweptRun("S1", truth, { noise: 0, shared: [cell, zero] }));

  test("gives four stretches a way, the lag taken off, the ways apart by their hysteresis", () => {
    expect(points.map(({ ofRun }) => ofRun)).toEqual(Array(8).fill(8));
    const source = "made sweep: truth at that slip, half the hysteresis above or below";
    points.forEach(({ slip, value }, i) => agrees(value.value, { expected: truth(slip.value) + (i < 4 ? 0.01 : -0.01), within: 3e-4, source }));
    expect(Math.max(...points.map(({ slip }) => slip.value)) - Math.min(...points.map(({ slip }) => slip.value))).toBeGreaterThan(0.4);
  });

  test("names what its points share, so that it does not average away among them", () => {
    for (const { slip, value } of points) {
      const row = (cause: string) => value.budget.find((candidate) => candidate.cause === cause);
      agrees(row(cell.cause)?.effect ?? NaN, { expected: 0.002, within: 1e-6, source: "the row put in" });
      agrees(row(zero.cause)?.effect ?? NaN, { expected: 0.003, within: 1e-6, source: "the row put in" });
      expect([row(cell.cause)?.sharedBy, row(zero.cause)?.sharedBy]).toEqual(["calibration CELL-1", "sweep S1"]);
      agrees(slip.budget.find(({ cause }) => cause === "reference H1")?.effect ?? NaN, { expected: (1 - slip.value) * 1e-3, within: 1e-9, source: "by hand: (1 − s) δr/r" });
    }
  });

  test("scatter of the revolutions is each point's own, less with more revolutions", () => {
    const own = sweepPoints(sweptRun("S1", truth, { noise: 0.004, seed: 3 })).points.map(({ value }) => value.budget.filter(({ sharedBy }) => sharedBy === null));
    for (const rows of own) {
      expect(rows).toHaveLength(1);
      // 0.004/√n, n 3 or 4; the scatter is estimated from 20 degrees of freedom
      expect(rows[0]?.effect).toBeGreaterThan(0.001);
      expect(rows[0]?.effect).toBeLessThan(0.0035);
    }
  });

  test("gives one refused point when rejected or without a curve of its own", () => {
    const sweep = sweptRun("S1", truth);
    expect(sweepPoints({ ...sweep, verdict: "repeat", reasons: ["clipped"] }).refused.map(({ reason }) => reason)).toEqual(["rejected: clipped"]);
    expect(sweepPoints({ ...sweep, fits: [] }).refused.map(({ reason }) => reason)).toEqual(["the sweep gives no curve of its own"]);
  });
});

/** Two runs at each of five slips, with scatter between them. */
function runs(seed: number): RunResult[] {
  const random = seededRandom(seed);
  return [0.05, 0.1, 0.2, 0.4, 0.6].flatMap((slip) => ["a", "b"].map((name) => runResult(plan("traction", { id: `${slip}${name}`, wheel: "W1", setLoadN: 60, setSlip: slip }), {
    slip: { value: slip, unit: "1", rows: [ownRow(1e-4)] },
    pullCoefficient: { value: truth(slip) + 0.012 * random.normal(), unit: "1", rows: [ownRow(0.002)] },
  })));
}

describe("a sweep among runs", () => {
  const options = rig({ reportPullAtSlip: [0.2] });
  const curve = (all: readonly RunResult[]) => pullCurvesFrom(all, options)[0];
  const at = (all: readonly RunResult[]) => curve(all)?.atSlip[0]?.estimate.value ?? NaN;

  test("counts as one run, however many revolutions it has", () => {
    const fit = curve([...runs(5), sweptRun("S1", truth)])?.fit;
    expect(fit?.points.filter(({ run }) => run === "S1")).toHaveLength(8);
    expect(fit?.degreesOfFreedom).toBe(10 + 1 - (fit?.parameters.length ?? 0));
    expect(fit?.sentence).toContain("11 runs");
  });

  test("weighs as one: a sweep that reads high pulls the curve by less than a third of it", () => {
    const moved = (at([...runs(5), sweptRun("S1", truth, { offset: 0.03 })]) - at([...runs(5), sweptRun("S1", truth)])) / 0.03;
    expect(moved).toBeGreaterThan(0.02);
    expect(moved).toBeLessThan(0.33);
  });

  test("k points with τ√k each have together the τ of one run", () => {
    const sizes = scatterSizes([{ ...point("S1", 0.2, 0.2), ofRun: 8 }, point("R1", 0.4, 0.2)], { run: 0.01, bed: 0, tilt: 0 });
    agrees(Math.sqrt(8 * (sizes[0] as number) ** 2) / 8, { expected: 0.01, within: 1e-15, source: "mean of 8 equal, independent errors of τ√8, by hand" });
    expect(sizes[1]).toBe(0.01);
  });
});
