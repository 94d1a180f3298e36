import { existsSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { deflectionRun, plateRun, shearRun } from "./benchRuns.ts";
import { dayPlan, excerptPlan } from "./dayPlan.ts";
import type { PlannedRun } from "./dayPlan.ts";
import { dice } from "./dice.ts";
import { dropRun } from "./dropRun.ts";
import { enduranceRun } from "./enduranceRun.ts";
import { chooseFaults, faultList, noFaults } from "./faults.ts";
import { padRun, photoRun } from "./footprintRun.ts";
import { laneRows, laneTruth, rutTruth } from "./laneScan.ts";
import { obstacleRun } from "./obstacleRun.ts";
import { rigYaml } from "./rigYaml.ts";
import { sensorErrors } from "./rigTruth.ts";
import { driveClock, driveLog, frameLog } from "./rollingLogs.ts";
import { rollingRun } from "./rollingRun.ts";
import { roundPressRun } from "./roundPress.ts";
import { bedSheet, coneSheet, runSheet, surfaceSheet, wheelSheet } from "./sheets.ts";
import { broken, inspectionSheet, madeLives, madeWear } from "./inspections.ts";
import { bedTruth, simulant } from "./soilTruth.ts";
import { usual } from "./unknowns.ts";
import { pressedWheels } from "./wheelTruth.ts";

/** Wheels that were inspected along an endurance test before the day. */
const worn = ["W3", "W5"];

export interface DayOptions {
  readonly seed: number;
  /** how many times the traction runs are repeated; 1 = the ordinary day */
  readonly scale: number;
  /** with the faults on purpose */
  readonly faults: boolean;
  /** a few runs at lower rates instead of a whole day */
  readonly excerpt?: boolean;
}

export interface MadeDay {
  readonly runs: number;
  readonly bytes: number;
}

/** Makes a day folder of an invented laboratory. The same options give the same bytes. */
export function makeDay(folder: string, options: DayOptions): MadeDay {
  const { seed, scale, faults: withFaults, excerpt = false } = options;
  const rates = excerpt ? { frameHz: 100, driveHz: 50, dropHz: 10_000 } : { frameHz: 1000, driveHz: 200, dropHz: 20_000 };
  const runs = excerpt ? excerptPlan() : dayPlan(seed, scale);
  const faults = withFaults && !excerpt ? chooseFaults(runs) : noFaults;
  const errors = sensorErrors(seed);
  const beds = new Map([...new Set(runs.flatMap((run) => (run.bed === null ? [] : [run.bed])))].map((id) => [id, bedTruth(seed, id)]));
  const byId = new Map(runs.map((run) => [run.id, run]));
  const truths: Record<string, unknown> = {};
  const outcomes = new Map<string, boolean>();
  const lanes: ReturnType<typeof laneRows> = [];
  let bytes = 0;
  // logs of an earlier making would be left unclaimed; a folder that this script did not make keeps its files
  if (existsSync(join(folder, "truth.json"))) rmSync(join(folder, "logs"), { recursive: true, force: true });
  mkdirSync(join(folder, "logs"), { recursive: true });
  const write = (name: string, content: Uint8Array | string): void => {
    writeFileSync(join(folder, name), content);
    bytes += content.length;
  };

  const makeRun = (run: PlannedRun, id: string, startMs: number): unknown => {
    const wheel = pressedWheels.find((candidate) => candidate.id === run.wheel);
    const bed = run.bed === null ? null : beds.get(run.bed)!;
    const bench = (log: { bytes: Uint8Array; truth: unknown }, name: string): unknown => {
      write(`logs/${id}_${name}`, log.bytes);
      return log.truth;
    };
    if (run.kind === "plate") return bench(plateRun(seed, run, bed!, errors), "press.csv");
    if (run.kind === "shear") return bench(shearRun(seed, run, bed!, errors), "shear.csv");
    if (run.kind === "obstacle") {
      const made = obstacleRun(seed, run, wheel!, errors);
      outcomes.set(id, made.climbed);
      return bench(made, "lane.csv");
    }
    if (run.kind === "endurance") return bench(enduranceRun(seed, run, wheel!, errors), "table.csv");
    if (run.footprint !== null) return run.footprint.from === "pad" ? bench(padRun(seed, run, wheel!, errors), "pad.csv") : bench(photoRun(seed, run, wheel!), "photo.png");
    if (run.contactAngleRad !== null) return bench(roundPressRun(seed, run, wheel!, errors), "press.csv");
    if (run.kind === "loadDeflection") return bench(deflectionRun(seed, run, wheel!, errors), "press.csv");
    if (run.kind === "drop") return bench(dropRun(seed, run, wheel!, errors, rates.dropHz, faults.knocks.has(run.id)), "drop.csv");
    const lane = run.kind === "traction" || run.kind === "sweep" ? laneTruth(seed, run) : undefined;
    const rolling = rollingRun(seed, run, wheel!, bed, usual, lane);
    if (lane !== undefined) lanes.push(...laneRows(seed, { ...run, id }, lane, rolling.truth["travelM"] as number, rutTruth(wheel!, rolling.truth["sinkageM"] as number), wheel!, errors));
    const clock = driveClock(seed, run);
    write(`logs/${id}_frame.txt`, frameLog(seed, run, wheel!, rolling, errors, startMs, rates.frameHz, faults.logs.get(run.id) ?? {}));
    write(`logs/${id}_drive.csv`, driveLog(seed, run, rolling, errors, clock, rates.driveHz));
    return { ...rolling.truth, phases: rolling.phases, driveClock: clock };
  };

  const pauses = dice(seed, "pauses");
  const starts = new Map<string, number>();
  let nowMs = Date.UTC(2026, 9, 6, 6, 30);
  for (const run of runs) {
    starts.set(run.id, nowMs);
    nowMs += Math.round((150 + 60 * pauses.uniform()) * 1000);
  }
  for (const run of runs) {
    const source = byId.get(faults.copies.get(run.id) ?? run.id)!;
    truths[run.id] = makeRun(source, run.id, starts.get(source.id)!);
  }

  write("rig.yaml", rigYaml(excerpt ? 600 : 1000, !excerpt));
  write("runs.csv", runSheet(runs, faults.excluded, outcomes));
  write("wheels.csv", wheelSheet(excerpt ? [] : broken));
  write("beds.csv", bedSheet([...beds.values()]));
  write("cones.csv", coneSheet(seed, [...beds.values()]));
  write("surfaces.csv", surfaceSheet(lanes));
  if (!excerpt) write("inspections.csv", inspectionSheet(pressedWheels.filter((wheel) => worn.includes(wheel.id)).map(({ id, massKg, radiusM }) => ({ id, massG: massKg * 1000, radiusMm: radiusM * 1000 })), seed, broken));
  const truth = { about: "Invented data. What drawbar should find, in SI units; not read by drawbar. Forces of the ground on the wheel; torque less hub drag; sinkage of the lug tips; deflection as on a hard floor.", seed, scale, rates, soil: simulant, beds: [...beds.values()], wheels: pressedWheels, ...(excerpt ? {} : { wear: madeWear, lives: madeLives }), sensorGainErrors: errors, faults: faultList(faults), runs: truths };
  write("truth.json", `${JSON.stringify(truth, null, 1)}\n`);
  return { runs: runs.length, bytes };
}
