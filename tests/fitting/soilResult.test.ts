import { expect, test } from "vitest";
import { soilFrom } from "../../src/fitting/soilResult.ts";
import { reducePlateRun } from "../../src/processing/plateRun.ts";
import { reduceShearRun } from "../../src/processing/shearRun.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { plateLog } from "../helpers/plateLog.ts";
import { plan, preparedRun, rig } from "../helpers/pressRun.ts";
import { runResult } from "../helpers/runResult.ts";
import { shearLog } from "../helpers/shearLog.ts";

const doubt = (calibration: string) => ({ noise: 0, offset: 0.05, relativeGain: 0.002, calibration });

/** From logs to soil: the runs are reduced, not made up; run-to-run scatter of 3 % in stiffness. */
function day(seed: number): RunResult[] {
  const random = seededRandom(seed);
  const plates = [0.05, 0.1].flatMap((widthM, w) => [1, 2, 3].map((repeat) => {
    const k = (30e3 / widthM + 2e6) * (1 + 0.03 * random.normal());
    const log = plateLog(1000 * seed + 10 * w + repeat, { k, n: 0.9, areaM2: widthM * 0.15 });
    const runPlan = plan("plate", { id: `p${w}${repeat}`, plate: { shape: "rectangle", widthM, lengthM: 0.15 } });
    return runResult(runPlan, {}, { ...reducePlateRun(preparedRun(runPlan, { pressForce: { unit: "N", samples: log.force, doubt: doubt("LC") }, pressDisplacement: { unit: "m", samples: log.displacement, doubt: doubt("LVDT") } }, 50)) });
  }));
  const shears = [2e3, 5e3, 10e3, 20e3].flatMap((stress, s) => [1, 2].map((repeat) => {
    const strength = 400 + 0.7 * stress + 120 * random.normal();
    const log = shearLog(2000 * seed + 10 * s + repeat, (j) => strength * (1 - Math.exp(-j / 0.012)), { normalN: stress * 0.01 });
    const runPlan = plan("shear", { id: `s${s}${repeat}`, shearAreaM2: 0.01, normalStressPa: stress });
    return runResult(runPlan, {}, { ...reduceShearRun(preparedRun(runPlan, { shearForce: { unit: "N", samples: log.shearForce, doubt: doubt("SF") }, shearDisplacement: { unit: "m", samples: log.shearDisplacement, doubt: doubt("SD") }, normalForce: { unit: "N", samples: log.normalForce, doubt: doubt("NF") } }, 50)) });
  }));
  return [...plates, ...shears];
}

test("from the logs of a day to soil constants that hold the truth", () => {
  let held = 0;
  for (let seed = 1; seed <= 6; seed++) {
    const soil = soilFrom(day(seed), rig());
    expect(soil.pressureSinkage?.verdict).toBe("determined");
    expect(soil.shearStrength?.verdict).toBe("determined");
    const parameters = [...(soil.pressureSinkage?.parameters ?? []), ...(soil.shearStrength?.parameters ?? [])].map((parameter) => parameter.estimate);
    [0.9, 30e3, 2e6, 400, Math.atan(0.7)].forEach((truth, i) => {
      const { value, standardUncertainty, degreesOfFreedom } = parameters[i] as (typeof parameters)[number];
      if (Math.abs(value - truth) <= studentTQuantile(0.975, degreesOfFreedom) * (standardUncertainty ?? Number.NaN)) held++;
    });
    expect(soil.plateWidths.map((width) => [width.widthM, width.runs.length, width.band === null])).toEqual([[0.05, 3, false], [0.1, 3, false]]);
    expect(soil.shearCurves.map((curve) => curve.normalStressPa)).toEqual([2e3, 5e3, 10e3, 20e3]);
    expect(soil.jointRegion.length).toBe(73);
  }
  // 30 intervals of 95 %: 26 or fewer would happen once in 40 times by chance
  expect(held).toBeGreaterThanOrEqual(26);
}, 60_000);

test("rejected and unread runs stand in the fits with their reasons", () => {
  const runs = day(1).map((run, i): RunResult => (i === 0 ? { ...run, verdict: "repeat", reasons: ["clipped"] } : i === 13 ? { ...run, verdict: "unread", reasons: ["no file"], measures: [], fits: [] } : run));
  const soil = soilFrom(runs, rig());
  expect(soil.pressureSinkage?.points.filter((point) => !point.kept)).toMatchObject([{ run: "p01", reason: "rejected: clipped" }]);
  expect(soil.plateWidths[0]?.runs).toEqual(["p02", "p03"]);
  expect(soil.shearStrength?.points.filter((point) => !point.kept)).toMatchObject([{ run: "s32", x: 20e3, reason: "could not be read: no file" }]);
});

test("a day without soil runs has no soil", () => {
  expect(soilFrom([], rig())).toEqual({ pressureSinkage: null, plateWidths: [], shearStrength: null, jointRegion: [], shearCurves: [] });
});

test("a day of one plate width has its curve and no split", () => {
  const soil = soilFrom(day(2).slice(0, 3), rig());
  expect(soil.pressureSinkage?.verdict).toBe("undetermined");
  expect(soil.plateWidths[0]?.fit.verdict).toBe("determined");
  expect(soil.shearStrength).toBeNull();
});
