import { expect, test } from "vitest";
import { estimateFrom } from "../../src/core/estimate.ts";
import { covariateEffectsFrom } from "../../src/fitting/covariateEffects.ts";
import { pullCurvesFrom } from "../../src/fitting/pullCurves.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { plan, rig } from "../helpers/pressRun.ts";
import { ownRow, runResult } from "../helpers/runResult.ts";

const truth = (slip: number): number => 0.45 * (1 - Math.exp(-slip / 0.18)) - 0.12;

interface Made {
  /** per 10 % of gradient */
  readonly firmness?: number;
  /** per doubling */
  readonly speed?: number;
  readonly gradients?: readonly number[];
  readonly speeds?: readonly number[];
  readonly doubt?: number;
}

/** One wheel, two loads, a bed and a speed for every repeat. */
function made(seed: number, { firmness = 0.02, speed = -0.01, gradients = [3.6e6, 4e6, 4.4e6], speeds = [0.01, 0.02, 0.04], doubt = 2e4 }: Made) {
  const random = seededRandom(seed);
  const runs: RunResult[] = [];
  for (const loadN of [40, 80]) {
    [0.05, 0.1, 0.2, 0.4, 0.6].forEach((slip, s) => {
      gradients.forEach((gradient, k) => {
        const velocity = speeds[(k + s) % speeds.length] as number;
        const pull = truth(slip) + firmness * 10 * (gradient / 4e6 - 1) + speed * Math.log2(velocity / 0.02) + 0.005 * random.normal();
        const id = `${loadN}N${slip}k${k}`;
        runs.push(runResult(plan("traction", { id, wheel: "W1", bed: `B${k}`, setLoadN: loadN, setSlip: slip }), {
          slip: { value: slip, unit: "1", rows: [ownRow(1e-4)] },
          pullCoefficient: { value: pull, unit: "1", rows: [ownRow(0.005)] },
          carriageSpeed: { value: velocity, unit: "m/s", rows: [ownRow(1e-5)] },
        }));
      });
    });
  }
  const cones = gradients.map((gradient, k) => ({ bed: `B${k}`, gradient: estimateFrom(gradient, "Pa/m", "", [ownRow(doubt)]) }));
  const [cone, velocity] = covariateEffectsFrom(pullCurvesFrom(runs, rig()), runs, cones);
  return { cone, velocity };
}

test("what firmer beds and higher speed do comes back, within twice its interval", () => {
  const held = { cone: 0, velocity: 0 };
  for (let seed = 1; seed <= 20; seed++) {
    const found = made(seed, {});
    for (const [name, real] of [["cone", 0.02], ["velocity", -0.01]] as const) {
      const { value, standardUncertainty, degreesOfFreedom } = (found[name] as NonNullable<(typeof found)["cone"]>).estimate;
      expect(standardUncertainty).toBeGreaterThan(0);
      if (Math.abs(value - real) <= studentTQuantile(0.975, degreesOfFreedom) * (standardUncertainty ?? 0)) held[name]++;
    }
  }
  // 20 trials of 95 %: fewer than 16 would happen three times in a thousand
  expect(held.cone).toBeGreaterThanOrEqual(16);
  expect(held.velocity).toBeGreaterThanOrEqual(16);
});

test("beds that do not vary enough, or one speed, are said to say nothing", () => {
  const alike = made(1, { gradients: [3.99e6, 4e6, 4.01e6], doubt: 5e4 });
  expect(alike.cone?.estimate.standardUncertainty).toBeNull();
  expect(alike.cone?.estimate.method).toContain("do not differ enough");
  const oneSpeed = made(1, { speeds: [0.02] });
  expect(oneSpeed.velocity?.estimate.method).toBe("1 different value of carriage speed; 3 are needed");
});

test("without a curve there is nothing to hold a covariate against", () => {
  expect(covariateEffectsFrom([], [], [])).toEqual([]);
});
