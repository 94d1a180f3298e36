import { deflectionRun, plateRun, shearRun } from "../demo/benchRuns.ts";
import type { PlannedRun } from "../demo/dayPlan.ts";
import { dropRun } from "../demo/dropRun.ts";
import { padRun } from "../demo/footprintRun.ts";
import { obstacleRun } from "../demo/obstacleRun.ts";
import { sensorErrors } from "../demo/rigTruth.ts";
import { rigYaml } from "../demo/rigYaml.ts";
import { driveClock, driveLog, frameLog } from "../demo/rollingLogs.ts";
import { rollingRun } from "../demo/rollingRun.ts";
import { bedSheet, coneSheet, runSheet, wheelSheet } from "../demo/sheets.ts";
import { bedTruth } from "../demo/soilTruth.ts";
import { wheels } from "../demo/wheelTruth.ts";
import { miniPlans } from "./miniPlans.ts";
import type { MiniPlanName } from "./miniPlans.ts";

/** Lowest rates at which everything the checks look at stays visible: a shared edge, a touch, a lug, a contact of 10 ms. */
export const miniRates = { frameHz: 100, driveHz: 50, dropHz: 10_000 } as const;

/** When a rolling run of the day touched, started, ended and was lifted [s on the frame logger's clock], and how far the drive's clock was ahead. */
export interface RunPhases {
  readonly touchS?: number;
  readonly startS: number;
  readonly endS: number;
  readonly liftFromS?: number;
  readonly leadS: number;
}

/** A small made day in memory: its files by path, and what its maker knows. Injectors change the files. */
export interface MiniDay {
  readonly seed: number;
  readonly plan: readonly PlannedRun[];
  readonly files: Map<string, string | Uint8Array>;
  readonly phases: ReadonlyMap<string, RunPhases>;
  /** each run's truth, as the made days' truth.json has it */
  readonly truth: ReadonlyMap<string, Readonly<Record<string, unknown>>>;
}

/** A clean small day, of a named plan or of runs of one's own. The same plan and seed give the same bytes. */
export function makeMiniDay(planned: MiniPlanName | readonly PlannedRun[], seed: number): MiniDay {
  const plan: readonly PlannedRun[] = typeof planned === "string" ? miniPlans[planned] : planned;
  const errors = sensorErrors(seed);
  const beds = [...new Set(plan.flatMap((run) => run.bed ?? []))].map((id) => bedTruth(seed, id));
  const files = new Map<string, string | Uint8Array>();
  const phases = new Map<string, RunPhases>();
  const truth = new Map<string, Readonly<Record<string, unknown>>>();
  const outcomes = new Map<string, boolean>();
  const bench = (run: PlannedRun, name: string, made: { readonly bytes: Uint8Array; readonly truth: object }): void => {
    files.set(`logs/${run.id}_${name}`, made.bytes);
    truth.set(run.id, made.truth as Record<string, unknown>);
  };
  for (const [index, run] of plan.entries()) {
    const wheel = wheels.find((candidate) => candidate.id === run.wheel);
    const bed = beds.find((candidate) => candidate.id === run.bed);
    if (run.kind === "plate" && bed !== undefined) bench(run, "press.csv", plateRun(seed, run, bed, errors));
    else if (run.kind === "shear" && bed !== undefined) bench(run, "shear.csv", shearRun(seed, run, bed, errors));
    else if (wheel === undefined) throw new Error(`${run.id}: a ${run.kind} run needs a wheel or a bed`);
    else if (run.kind === "loadDeflection") bench(run, "press.csv", deflectionRun(seed, run, wheel, errors));
    else if (run.kind === "drop") bench(run, "drop.csv", dropRun(seed, run, wheel, errors, miniRates.dropHz, false));
    else if (run.kind === "footprint") bench(run, "pad.csv", padRun(seed, run, wheel, errors));
    else if (run.kind === "obstacle") {
      const made = obstacleRun(seed, run, wheel, errors);
      outcomes.set(run.id, made.climbed);
      bench(run, "lane.csv", made);
    } else {
      const rolling = rollingRun(seed, run, wheel, bed ?? null);
      const clock = driveClock(seed, run);
      files.set(`logs/${run.id}_frame.txt`, frameLog(seed, run, wheel, rolling, errors, Date.UTC(2026, 9, 6, 6, 30 + 4 * index), miniRates.frameHz, {}));
      files.set(`logs/${run.id}_drive.csv`, driveLog(seed, run, rolling, errors, clock, miniRates.driveHz));
      truth.set(run.id, rolling.truth);
      phases.set(run.id, { startS: 0, endS: 0, ...rolling.phases, leadS: clock.leadS });
    }
  }
  files.set("rig.yaml", rigYaml(600));
  files.set("runs.csv", runSheet(plan, new Map(), outcomes));
  files.set("wheels.csv", wheelSheet());
  if (beds.length > 0) files.set("beds.csv", bedSheet(beds));
  if (beds.length > 0) files.set("cones.csv", coneSheet(seed, beds));
  return { seed, plan, files, phases, truth };
}

/** A copy whose files can be spoiled without touching the original. */
export function copyOf(day: MiniDay): MiniDay {
  return { ...day, files: new Map(day.files) };
}
