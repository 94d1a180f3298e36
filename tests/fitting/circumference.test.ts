import { expect, test } from "vitest";
import { circumferencesFrom } from "../../src/fitting/circumference.ts";
import { firstHarmonic } from "../../src/models/firstHarmonic.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { plan } from "../helpers/pressRun.ts";
import { ownRow, runResult, sharedRow } from "../helpers/runResult.ts";
import { agrees } from "../helpers/agrees.ts";

/** Runs of one wheel whose stiffness has one wave a turn, read by one press with a shared gain error of 0.4 %. */
function wheelWith(angles: readonly number[], amplitude: number, noise = 15, seed = 3): RunResult[] {
  const random = seededRandom(seed);
  return angles.map((angle, i) => {
    const value = firstHarmonic(angle, { mean: 20e3, cosine: 0.6 * amplitude, sine: 0.8 * amplitude }) + noise * random.normal();
    return runResult(plan("loadDeflection", { id: `L${i + 1}`, wheel: "W3", setLoadN: 100, contactAngleRad: angle }), {
      secantStiffness: { value, unit: "N/m", rows: [ownRow(noise), sharedRow(0.004 * value, "calibration LC-1")] },
      deflection: { value: 100 / value, unit: "m", rows: [ownRow(1e-6), sharedRow(4e-6, "calibration LV-1")] },
    });
  });
}

const eight = Array.from({ length: 8 }, (_, i) => (i * Math.PI) / 4);

test("mean, range and amplitude of a wheel with one soft side", () => {
  const [stiffness] = circumferencesFrom(wheelWith(eight, 600));
  expect(stiffness?.measure).toBe("secantStiffness");
  expect(Math.abs((stiffness?.mean.value ?? 0) - 20e3)).toBeLessThan(20);
  // a calibration does not average away over angles, and hardly enters an amplitude
  expect(stiffness?.mean.standardUncertainty).toBeGreaterThan(79);
  expect(Math.abs((stiffness?.amplitude.value ?? 0) - 600)).toBeLessThan(3 * (stiffness?.amplitude.standardUncertainty ?? 0));
  expect(stiffness?.amplitude.standardUncertainty).toBeLessThan(15);
  expect(stiffness?.range.value).toBeGreaterThan(1000);
  expect(stiffness?.fit.verdict).toBe("determined");
});

test("on evenly spread angles the constants are the sums of a discrete Fourier series", () => {
  const runs = wheelWith(eight, 600);
  const y = runs.map((run) => run.measures[0]?.estimate.value as number);
  const [round] = circumferencesFrom(runs);
  const fit = round?.fit;
  const sum = (weight: (angle: number) => number): number => y.reduce((total, value, i) => total + value * weight(eight[i] as number), 0);
  const source = "discrete Fourier coefficients, 2/n Σ y cos θ and 2/n Σ y sin θ: definition";
  agrees(fit?.parameters[1]?.estimate.value ?? Number.NaN, { expected: sum(Math.cos) / 4, relative: 1e-9, source });
  agrees(fit?.parameters[2]?.estimate.value ?? Number.NaN, { expected: sum(Math.sin) / 4, relative: 1e-9, source });
  expect(round?.wave[0]?.value).toBeCloseTo((fit?.parameters[0]?.estimate.value ?? 0) + (fit?.parameters[1]?.estimate.value ?? 0), 6);
});

test("chance is not called a wave: about one even wheel in twenty", () => {
  let told = 0;
  for (let seed = 1; seed <= 100; seed++) if (circumferencesFrom(wheelWith(eight, 0, 15, seed))[0]?.fit.verdict === "determined") told++;
  expect(told).toBeLessThanOrEqual(11);
});

test("three angles are not enough, and runs that do not count are named", () => {
  const runs = wheelWith([0, 2, 4, 5], 600).map((run, i) => (i === 3 ? { ...run, verdict: "repeat" as const, reasons: ["the press slipped"] } : run));
  const [stiffness] = circumferencesFrom(runs);
  expect(stiffness?.amplitude.standardUncertainty).toBeNull();
  expect(stiffness?.fit.sentence).toContain("3 contact angles");
  expect(stiffness?.fit.points.find((point) => !point.kept)?.reason).toContain("the press slipped");
});

test("runs without an angle, or all at one, say nothing of the circumference", () => {
  expect(circumferencesFrom(wheelWith([0, 0, 0, 0], 600))).toEqual([]);
});
