import { readCampaign } from "./campaign/readCampaign.ts";
import type { Campaign, RunPlan, WheelRecord } from "./campaign/campaign.ts";
import type { Rig } from "./campaign/rigSchema.ts";
import { exactJson } from "./core/exactJson.ts";
import { covariateEffectsFrom } from "./fitting/covariateEffects.ts";
import { circumferencesFrom } from "./fitting/circumference.ts";
import { climbCurvesFrom } from "./fitting/climbFit.ts";
import { coneTrendFrom } from "./fitting/coneTrend.ts";
import { conformityFrom } from "./fitting/conformity.ts";
import { coreDifferencesFrom } from "./fitting/coreDifference.ts";
import { dropFitsFrom } from "./fitting/dropFits.ts";
import { enduranceFrom } from "./fitting/enduranceFrom.ts";
import { pullCurvesFrom } from "./fitting/pullCurves.ts";
import { repeatabilityFrom } from "./fitting/repeatability.ts";
import { wheelRankingsFrom } from "./fitting/wheelRankings.ts";
import { soilFrom } from "./fitting/soilResult.ts";
import type { WheelSoilHands } from "./fitting/wheelSoilJobs.ts";
import { wheelSoilOfDay } from "./fitting/wheelSoilOfDay.ts";
import { logInPieces } from "./importers/logInPieces.ts";
import { readLog } from "./importers/readLog.ts";
import { conesFrom } from "./processing/cones.ts";
import { takesOutRuns } from "./processing/dayFinding.ts";
import type { DayResult, RunResult } from "./processing/dayResult.ts";
import { copiedFiles, unclaimedFiles, unclaimedFindings, withCopies } from "./processing/dayFiles.ts";
import { reduceRun, unreadRun } from "./processing/reduceRun.ts";
import { restsOn } from "./processing/references.ts";
import type { References } from "./processing/references.ts";
import { sideBySide } from "./processing/sideBySide.ts";
import type { SideBySide } from "./processing/sideBySide.ts";
import { version } from "./version.ts";

export interface ReduceOptions {
  /** leave out the fits across runs: for a quick check */
  readonly findingsOnly?: boolean;
  /** told after each run: how many are done, of how many, and which */
  readonly onProgress?: (done: number, total: number, run: RunResult) => void;
  /** who reduces the runs, told how many there are; default: this thread, one after the other */
  readonly hands?: (runs: number) => Hands | null;
  /** who does the long jobs of the wheel–soil models; default: this thread */
  readonly fitHands?: WheelSoilHands;
}

/** Reduces single runs, so many side by side. What comes out does not depend on how many. */
export interface Hands {
  readonly lanes: number;
  readonly reduce: (folder: string, plan: RunPlan, wheel: WheelRecord | null, rig: Rig, references: References) => Promise<RunResult>;
}

const nothingFitted: ReturnType<typeof fitsFrom> = {
  circumferences: [],
  coreDifferences: [],
  conformity: [],
  climbCurves: [],
  pullCurves: [],
  covariateEffects: [],
  repeatability: [],
  soil: { pressureSinkage: null, plateWidths: [], shearStrength: null, jointRegion: [], shearCurves: [] },
};

/** Runs that others rest on come first: radius, drag and deflection. */
export const referenceKinds: readonly RunPlan["kind"][] = ["hardFloor", "freeSpin", "loadDeflection"];

/**
 * The whole job: a day folder → every run measured → fits across runs.
 *
 * @param folder  holds rig.yaml, runs.csv, wheels.csv, beds.csv, cones.csv, surfaces.csv, inspections.csv and the logs
 * @throws InputError when the day as a whole cannot be understood; what is wrong with one run stays with that run
 */
export async function reduceDay(folder: string, options: ReduceOptions = {}): Promise<DayResult> {
  const campaign = readCampaign(folder);
  const copies = copiedFiles(folder, campaign);
  const { lanes, reduce } = options.hands?.(campaign.runs.length) ?? ownHands;
  const done = new Map<string, RunResult>();
  const reduceAll = async (plans: readonly RunPlan[], references: References): Promise<void> => {
    const waiting = [...plans];
    const lane = async (): Promise<void> => {
      for (let plan = waiting.shift(); plan !== undefined; plan = waiting.shift()) {
        const result = withCopies(await reduceOne(folder, campaign, plan, references, reduce), copies);
        done.set(plan.id, result);
        options.onProgress?.(done.size, campaign.runs.length, result);
      }
    };
    await Promise.all(Array.from({ length: lanes }, lane));
  };
  const isReference = (plan: RunPlan): boolean => referenceKinds.includes(plan.kind);
  // In the order of the sheet, not of completion: sums must not depend on who was quicker.
  const soFar = (): SideBySide => sideBySide(campaign.runs.flatMap((plan) => done.get(plan.id) ?? []), campaign);
  const others = campaign.runs.filter((plan) => !isReference(plan));
  await reduceAll(campaign.runs.filter(isReference), { rollingRadii: [], drags: [], deflections: [] });
  const first = soFar().references;
  await reduceAll(others, first);
  // Only now all runs can be compared. Where that took out one that others rest on, these are measured again; what took it out stays as it is, so once is enough.
  const { references: left } = soFar();
  await reduceAll(others.filter((plan) => exactJson(restsOn(plan, left)) !== exactJson(restsOn(plan, first))), left);
  const { runs, references, findings } = soFar();
  const unclaimed = unclaimedFiles(folder, campaign);
  const cones = conesFrom(campaign);
  const fits = options.findingsOnly === true ? nothingFitted : fitsFrom(runs, campaign);
  const endurance = options.findingsOnly === true ? null : enduranceFrom(runs, campaign);
  return {
    campaign,
    runs,
    rollingRadii: references.rollingRadii,
    deflections: references.deflections,
    ...fits,
    wheelSoil: options.findingsOnly === true ? null : await wheelSoilOfDay(runs, campaign, references.deflections, fits.soil, options.fitHands),
    dropFits: options.findingsOnly === true ? [] : dropFitsFrom(runs, campaign),
    endurance,
    rankings: wheelRankingsFrom({ ...fits, endurance }, runs, campaign.wheels, campaign.rig.reportPullAtSlip),
    cones,
    coneTrend: coneTrendFrom(cones.map(({ bed, gradient }) => ({ bed, value: gradient })), "gradient"),
    coneIndexTrend: coneTrendFrom(cones.map(({ bed, index }) => ({ bed, value: index })), "mean index"),
    findings: [...unclaimedFindings(unclaimed), ...findings.filter((found) => !takesOutRuns(found))],
    unclaimedFiles: unclaimed,
    drawbarVersion: version,
  };
}

/** What only several runs together show. */
function fitsFrom(runs: readonly RunResult[], campaign: Campaign): Pick<DayResult, "circumferences" | "coreDifferences" | "conformity" | "climbCurves" | "pullCurves" | "covariateEffects" | "repeatability" | "soil"> {
  const { rig, wheels } = campaign;
  const pullCurves = pullCurvesFrom(runs, rig);
  return {
    circumferences: circumferencesFrom(runs),
    coreDifferences: coreDifferencesFrom(runs, wheels),
    conformity: conformityFrom(runs),
    climbCurves: climbCurvesFrom(runs, wheels, rig),
    pullCurves,
    covariateEffects: covariateEffectsFrom(pullCurves, runs, conesFrom(campaign)),
    repeatability: repeatabilityFrom(runs),
    soil: soilFrom(runs, rig),
  };
}

/** One run of the day; mistakes on its row of the sheet leave it unread. */
export async function reduceOne(folder: string, campaign: Campaign, plan: RunPlan, references: References, reduce = ownHands.reduce): Promise<RunResult> {
  const issues = campaign.issues.filter((issue) => issue.run === plan.id);
  if (issues.length > 0) return unreadRun(plan, issues);
  const wheel = campaign.wheels.find((candidate) => candidate.id === plan.wheel) ?? null;
  return reduce(folder, plan, wheel, campaign.rig, restsOn(plan, references));
}

const ownHands: Hands = {
  lanes: 1,
  reduce: (folder, plan, wheel, rig, references) => reduceRun(plan, wheel, rig, references, (path, readOptions) => readLog(folder, path, readOptions), (path, readOptions, onPiece) => logInPieces(folder, path, readOptions, onPiece)),
};
