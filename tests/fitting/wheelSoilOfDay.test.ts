import { expect, test } from "vitest";
import type { Campaign } from "../../src/campaign/campaign.ts";
import { wheelSoilOfDay } from "../../src/fitting/wheelSoilOfDay.ts";
import type { WheelSoilJob } from "../../src/fitting/wheelSoilJobs.ts";
import { doWheelSoilJob } from "../../src/fitting/wheelSoilJobs.ts";
import { madeWheel, madeSoil, trueShares } from "../helpers/madeWheelRuns.ts";
import { plan, rig } from "../helpers/pressRun.ts";
import { ownRow, runResult } from "../helpers/runResult.ts";

const wheels = [{ id: "M1", radiusM: madeWheel.rimM, widthM: madeWheel.widthM, massKg: 1, lugs: 0, lugHeightM: 0, flexible: false, description: "", bareFrame: null, factors: {}, line: 2 }];
const campaign = (soil: Record<string, unknown>): Campaign => ({ rig: rig({ soil: { circularPlateWidth: "radius", ...soil } }), runs: [], wheels, beds: [], cones: [], inspections: [], issues: [], files: [] });
const noSoil = { pressureSinkage: null, plateWidths: [], shearStrength: null, jointRegion: [], shearCurves: [] };
const runs = [40, 80].flatMap((load) => [0.1, 0.3, 0.5].map((slip) => {
  const shares = trueShares(madeSoil, madeWheel, slip, load);
  return runResult(plan("traction", { id: `${load}-${slip}`, wheel: "M1", setLoadN: load, setSlip: slip }), {
    verticalLoad: { value: load, unit: "N", rows: [ownRow(0.01)] },
    slip: { value: slip, unit: "1", rows: [ownRow(1e-4)] },
    pullCoefficient: { value: shares.pull, unit: "1", rows: [ownRow(0.004)] },
    wheelTorque: { value: shares.torque * madeWheel.rimM * load, unit: "N.m", rows: [ownRow(0.02)] },
    sinkageRunning: { value: shares.sinkage * madeWheel.rimM, unit: "m", rows: [ownRow(3e-4)] },
  });
}));

test("not asked for, nothing fitted", async () => {
  expect(await wheelSoilOfDay(runs, campaign({}), [], noSoil)).toBeNull();
});

test("asked for, with the draws that were asked for, by the hands that were given", async () => {
  const asked: WheelSoilJob[] = [];
  const result = await wheelSoilOfDay(runs, campaign({ wheelModel: { draws: 50, bootstrap: 20 } }), [], noSoil, (jobs) => {
    asked.push(...jobs);
    return Promise.resolve(jobs.map(doWheelSoilJob));
  });
  expect(result?.verdict).toBe("determined");
  expect(result?.runs).toHaveLength(6);
  expect(asked.filter((job) => job.kind === "chain").map((job) => job.steps)).toEqual([50, 50, 50, 50]);
  // what runs in other threads must be plain data
  expect(() => structuredClone(asked)).not.toThrow();
});

test("no usable run: said, not thrown", async () => {
  const result = await wheelSoilOfDay([], campaign({ wheelModel: { plateTransfer: 0.3, shearTransfer: 4 } }), [], noSoil);
  expect(result).toMatchObject({ verdict: "undetermined", sentence: "0 usable traction runs; at least 4 are needed." });
});
