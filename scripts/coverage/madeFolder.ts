import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { deflectionRun, plateRun, shearRun } from "../demo/benchRuns.ts";
import type { PlannedRun } from "../demo/dayPlan.ts";
import { dice } from "../demo/dice.ts";
import { dropRun } from "../demo/dropRun.ts";
import { padRun, photoRun } from "../demo/footprintRun.ts";
import { obstacleRun } from "../demo/obstacleRun.ts";
import { sensorErrors, stated } from "../demo/rigTruth.ts";
import type { SensorErrors } from "../demo/rigTruth.ts";
import { rigYaml } from "../demo/rigYaml.ts";
import { driveClock, driveLog, frameLog } from "../demo/rollingLogs.ts";
import { rollingRun } from "../demo/rollingRun.ts";
import { roundPressRun } from "../demo/roundPress.ts";
import { bedSheet, runSheet, wheelSheet } from "../demo/sheets.ts";
import { bedTruth } from "../demo/soilTruth.ts";
import { reduceDay } from "../../src/day.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";
import { drawnDrop, drawnGrid, drawnSeating, drawnUnknowns, drawnWheel } from "./drawn.ts";
import type { Truth } from "./truthOf.ts";

export interface MadeDay {
  readonly day: DayResult;
  /** by run id */
  readonly truths: ReadonlyMap<string, Truth>;
}

/**
 * Low rates keep many seeds fast. The two of a rolling run are no multiples of each other: otherwise a shared edge falls at
 * places in both sampling intervals that hang together, and the clock's error takes a few values only.
 */
const rates = { frameHz: 100, driveHz: 47, dropHz: 10_000 } as const;

export const plan = (part: Partial<PlannedRun> & Pick<PlannedRun, "id" | "kind">): PlannedRun => ({ wheel: null, bed: null, loadN: null, slip: null, speedMps: null, repeat: 1, block: "", dropHeightM: null, plateM: null, normalStressPa: null, contactAngleRad: null, obstacle: null, footprint: null, remark: "", ...part });

/**
 * Sensor errors of a seed, the six outputs of the force sensor each with a gain error of its own: that is what the rig
 * description says of it. (The demo day draws one for all six, so its ratios of forces come out better than stated.)
 */
function separateGains(seed: number): SensorErrors {
  const random = dice(seed, "six gains");
  return { ...sensorErrors(seed), sixAxis: Array.from({ length: 6 }, () => 1 + stated.sixAxis * random.normal()) };
}

/** Runs made from a seed, sensors' errors drawn anew, written as a day folder, and reduced from those bytes. */
export async function reduceMade(seed: number, runs: readonly PlannedRun[]): Promise<MadeDay> {
  const folder = mkdtempSync(join(tmpdir(), "closure-"));
  try {
    const truths = new Map(runs.map((run) => [run.id, writeRun(folder, seed, run)]));
    const beds = [...new Set(runs.flatMap((run) => run.bed ?? []))].map((id) => bedTruth(seed, id));
    writeFileSync(join(folder, "rig.yaml"), rigYaml(600));
    writeFileSync(join(folder, "runs.csv"), runSheet(runs, new Map()));
    writeFileSync(join(folder, "wheels.csv"), wheelSheet());
    if (beds.length > 0) writeFileSync(join(folder, "beds.csv"), bedSheet(beds));
    return { day: await reduceDay(folder), truths };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function writeRun(folder: string, seed: number, run: PlannedRun): Truth {
  const errors = separateGains(seed);
  const wheel = drawnWheel(seed, run.wheel);
  const bed = run.bed === null ? null : bedTruth(seed, run.bed);
  mkdirSync(join(folder, "logs"), { recursive: true });
  const log = (name: string, bytes: Uint8Array): void => writeFileSync(join(folder, "logs", `${run.id}_${name}`), bytes);
  const bench = (name: string, made: { readonly bytes: Uint8Array; readonly truth: object }): Truth => {
    log(name, made.bytes);
    return made.truth as Truth;
  };
  const seating = drawnSeating(seed, run);
  if (run.kind === "plate" && bed !== null) return bench("press.csv", plateRun(seed, run, bed, errors, seating));
  if (run.kind === "shear" && bed !== null) return bench("shear.csv", shearRun(seed, run, bed, errors, seating));
  if (wheel === undefined) throw new Error(`${run.id}: this kind needs a wheel or a bed`);
  if (run.kind === "obstacle") return bench("lane.csv", obstacleRun(seed, run, wheel, errors));
  if (run.footprint !== null) return run.footprint.from === "pad" ? bench("pad.csv", padRun(seed, run, wheel, errors, drawnGrid(seed, run))) : bench("photo.png", photoRun(seed, run, wheel, drawnGrid(seed, run)));
  if (run.contactAngleRad !== null) return bench("press.csv", roundPressRun(seed, run, wheel, errors, seating));
  if (run.kind === "loadDeflection") return bench("press.csv", deflectionRun(seed, run, wheel, errors, seating));
  if (run.kind === "drop") return bench("drop.csv", dropRun(seed, run, wheel, errors, rates.dropHz, false, drawnDrop(seed, run.id)));
  const unknowns = drawnUnknowns(seed, run);
  const rolling = rollingRun(seed, run, wheel, bed, unknowns);
  log("frame.txt", frameLog(seed, run, wheel, rolling, errors, Date.UTC(2026, 9, 6, 6, 30), rates.frameHz, {}, unknowns));
  log("drive.csv", driveLog(seed, run, rolling, errors, driveClock(seed, run), rates.driveHz));
  return rolling.truth;
}
