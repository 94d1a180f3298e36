import { describe, expect, test } from "vitest";
import { profileInterval } from "../../src/fitting/profileInterval.ts";
import { wheelSoilFit } from "../../src/fitting/wheelSoilFit.ts";
import type { WheelModelToFit } from "../../src/fitting/wheelSoilFit.ts";
import { madeWheelRuns } from "../helpers/madeWheelRuns.ts";
import { agrees } from "../helpers/agrees.ts";

const runs = madeWheelRuns({ seed: 8, loads: [50], slips: Array.from({ length: 25 }, () => 0.3), noise: { pull: 0.02, torque: 0.02, sinkage: 1 } }).map((run, i) => ({ ...run, run: `${i}`, measured: { pull: run.measured.pull!, torque: run.measured.torque! } }));
const made = (pull: (p: readonly number[]) => number, torque: (p: readonly number[]) => number): WheelModelToFit => ({
  model: (p, wheel, _slip, loadN) => ({ loadN, pullN: pull(p) * loadN, torqueNm: torque(p) * loadN * (wheel.rimM + wheel.lugHeightM), sinkageM: 0.01, deflectionM: 0, entryRad: 0.1 }),
  beliefs: [{ mean: 0.3, sd: 0.5 }, { mean: 0.3, sd: 0.5 }], lower: [-3, -3], upper: [3, 3], starts: [[0.3, 0.3]],
});
const mean = runs.reduce((sum, run) => sum + run.measured.pull.value, 0) / runs.length;

describe("straight in its parameters", () => {
  const toFit = made(([a = 0]) => a, ([a = 0, b = 0]) => a + b);
  const fit = wheelSoilFit(runs, toFit);
  test("the profile is the normal interval, without the belief", () => {
    const { best, low, high } = profileInterval(fit, toFit, 0);
    const u = Math.hypot(0.02, fit.misfit.single.pull as number) / Math.sqrt(runs.length);
    agrees(best, { expected: mean, within: 0.05 * u, source: "mean of the measured pulls: torque has its own parameter" });
    agrees(((high as number) - (low as number)) / 2, { expected: 1.959964 * u, relative: 0.03, source: "1.96 u/√n by hand" });
  });
});

describe("bent", () => {
  // the data say a² only: below √ of its mean nothing but the bound at nought
  const toFit = { ...made(([a = 0]) => Math.exp(a), () => 0.5), lower: [-40, -3] };
  const fit = wheelSoilFit(runs, toFit);
  test("ends where the bent scale has them, not at equal distance", () => {
    const { best, low, high } = profileInterval(fit, toFit, 0);
    const u = Math.hypot(0.02, fit.misfit.single.pull as number) / Math.sqrt(runs.length);
    agrees(best, { expected: Math.log(mean), within: 0.02, source: "logarithm of the mean pull" });
    agrees(low as number, { expected: Math.log(mean - 1.959964 * u), within: 0.003, source: "logarithm of the interval's end, by hand" });
    agrees(high as number, { expected: Math.log(mean + 1.959964 * u), within: 0.003, source: "logarithm of the interval's end, by hand" });
  });
});

describe("open", () => {
  test("a parameter that the data do not touch is open on both sides, however narrow its belief", () => {
    const toFit = made(([a = 0]) => a, () => 0.5);
    const { low, high } = profileInterval(wheelSoilFit(runs, toFit), toFit, 1);
    expect([low, high]).toEqual([null, null]);
  });

  test("one that saturates is open where it saturates", () => {
    // beyond three scales of rise the pull no longer changes
    const toFit = { ...made(([a = 0]) => mean + 0.02 - 0.3 * Math.exp(-4 * a), () => 0.5), lower: [-3, -3], upper: [30, 3], beliefs: [{ mean: 0.6, sd: 0.5 }, { mean: 0.3, sd: 0.5 }] };
    const { low, high } = profileInterval(wheelSoilFit(runs.map((run) => ({ ...run, measured: { ...run.measured, pull: { ...run.measured.pull, value: run.measured.pull.value + 0.019 } } })), toFit), toFit, 0);
    expect(low).not.toBeNull();
    expect(high).toBeNull();
  });

  test("no answer beyond a value counts as outside", () => {
    const toFit = made(([a = 0]) => (a > mean + 0.001 ? Number.NaN : a), () => 0.5);
    const { high } = profileInterval(wheelSoilFit(runs, { ...toFit, starts: [[0.1, 0.3]], beliefs: [{ mean: 0.1, sd: 0.5 }, { mean: 0.3, sd: 0.5 }] }), toFit, 0);
    expect(high as number).toBeLessThan(mean + 0.0012);
  });
});
