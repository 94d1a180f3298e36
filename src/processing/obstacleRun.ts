import type { Obstacle } from "../campaign/campaign.ts";
import { combine, estimateFrom, undetermined } from "../core/estimate.ts";
import type { BudgetRow, Estimate } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Measure } from "../core/measure.ts";
import type { Doubt } from "../core/recording.ts";
import { indexAt, sampleCount, timeAt } from "../core/recording.ts";
import type { Segment } from "../core/segment.ts";
import type { Unit } from "../core/units.ts";
import { obstacleChecks } from "./checks/obstacleChecks.ts";
import { stepFriction, stepTorque } from "./measures/stepClimb.ts";
import { mean, standardDeviation } from "../numerics/statistics.ts";
import { judgedOverS, turningStretch } from "./conditioning/motion.ts";
import { climbOutcome } from "./measures/climbOutcome.ts";
import type { HubPath } from "./measures/climbOutcome.ts";
import { driveWork, workNoise } from "./measures/driveWork.ts";
import { fromDetermined } from "./measures/fromDetermined.ts";
import { recordedRadius } from "./measures/loadedRadius.ts";
import { pairedSamples } from "./measures/pairedSamples.ts";
import type { PairedSamples } from "./measures/pairedSamples.ts";
import { peakTorque } from "./measures/peakTorque.ts";
import { refused } from "./pressSegments.ts";
import { find } from "./preparedRun.ts";
import type { PreparedRun, Reduced } from "./preparedRun.ts";

/** time before the wheel turns from which standing load, pull and noise are taken, at most [s] */
const standingS = 1;

/** A wheel driven against a step, bar or rock: whether it got over, what it took, and what statics asks for. */
export function reduceObstacleRun(run: PreparedRun): Reduced {
  const { obstacle } = run.plan;
  const angle = find(run, "wheelAngle", "rad");
  if (obstacle === null || run.wheel === null || angle === null) return refused("obstacle-channels-missing", "An obstacle run needs the wheel, the obstacle's height and edge, and the wheel's angle; one of them is missing.");
  const turning = turningStretch(angle.time, angle.channel.samples);
  if (turning === null) return refused("wheel-does-not-turn", "The wheel never turns in this log; nothing was driven against the obstacle.");
  const drive: Segment = { kind: "drive", ...turning, reason: "from the wheel's first turning to its last" };
  const before: Segment = { kind: "static", fromS: turning.fromS - standingS, toS: turning.fromS, reason: "standing on the floor before the drive" };
  const hub = hubPath(run, obstacle, drive);
  const judged = outcome(obstacle, hub);
  const torque = torqueMeasures(run, drive, before);
  const statics = staticMeasures(run, obstacle, torque.peak, before, drive);
  const measure = (name: string, label: string, estimate: Estimate): Measure => ({ name, label, estimate, segment: drive });
  const measures = [
    measure("climbed", "Climbed (1 = yes, 0 = no)", judged.estimate),
    measure("hubRise", "Hub rise from start to end", hub.rise),
    measure("peakTorque", "Greatest torque", torque.peak),
    measure("driveEnergy", "Energy of the drive", torque.energy),
    ...accelerationMeasures(run, drive, before).map(([name, label, estimate]) => measure(name, label, estimate)),
    ...statics.map(([name, label, estimate]) => measure(name, label, estimate)),
  ];
  const findings = [...judged.findings, ...obstacleChecks({ run, obstacle, drive, climbed: judged.estimate, hub: hub.path, work: torque.energy })];
  return { measures, fits: [], findings, segments: [before, drive], windowChoices: [] };
}

/** Samples of a channel within a segment; null when it was not recorded. */
function within(run: PreparedRun, name: string, unit: Unit, segment: Segment): { readonly values: number[]; readonly doubt: Doubt | null; readonly rateHz: number } | null {
  const found = find(run, name, unit);
  if (found === null) return null;
  const { time, channel } = found;
  const values = Array.from(channel.samples.subarray(indexAt(time, segment.fromS), indexAt(time, segment.toS))).filter(Number.isFinite);
  const count = sampleCount(time);
  return { values, doubt: channel.doubt, rateHz: (count - 1) / (timeAt(time, count - 1) - timeAt(time, 0)) };
}

function cut(pairs: PairedSamples, { fromS, toS }: Segment): { readonly first: number[]; readonly second: number[] } {
  const keep = (_: number, i: number): boolean => (pairs.timesS[i] as number) >= fromS && (pairs.timesS[i] as number) < toS;
  return { first: pairs.first.filter(keep), second: pairs.second.filter(keep) };
}

const calibrationRow = (doubt: Doubt | null, value: number, of: string): BudgetRow => {
  const cause = `calibration ${doubt?.calibration ?? `of the ${of}`}`;
  return { cause, effect: (doubt?.relativeGain ?? 0) * value, sharedBy: cause, degreesOfFreedom: Infinity };
};

function hubPath(run: PreparedRun, obstacle: Obstacle, drive: Segment): { readonly path: HubPath | null; readonly rise: Estimate<"m"> } {
  const hub = within(run, "hubHeight", "m", drive);
  if (hub === null || hub.values.length < 25) return { path: null, rise: undetermined("m", hub === null ? "no hub height was recorded" : "fewer than 25 samples of the hub's height while the wheel turned") };
  const pairs = pairedSamples(run, { name: "hubHeight", unit: "m" }, { name: "carriagePosition", unit: "m" });
  const both = pairs === null ? null : cut(pairs, drive);
  const path = climbOutcome(both?.first ?? hub.values, both?.second ?? null, obstacle.heightM, run.wheel?.radiusM ?? Number.NaN);
  const ends = Math.max(2, Math.floor(0.08 * hub.values.length));
  // a median of normal noise scatters by √(π/2) more than a mean
  const noise = Math.sqrt(Math.PI / 2 / ends) * Math.hypot(standardDeviation(hub.values.slice(0, ends)), standardDeviation(hub.values.slice(-ends)));
  const rise = estimateFrom(path.endRiseM, "m", "median hub height of the last 8 % of the drive less that of the first", [calibrationRow(hub.doubt, path.endRiseM, "hub height"), { cause: `scatter of the hub height at both ends, ${run.plan.id}`, effect: noise, sharedBy: null, degreesOfFreedom: ends - 1 }]);
  return { path, rise };
}

/** What the person wrote and what the hub shows, held against each other; neither overrules the other. */
function outcome(obstacle: Obstacle, { path }: { readonly path: HubPath | null }): { readonly estimate: Estimate<"1">; readonly findings: readonly Finding[] } {
  const seen = obstacle.climbed;
  const shown = path === null || path.outcome === "notTold" ? null : path.outcome === "climbed";
  const word = (yes: boolean): string => (yes ? "climbed" : "not climbed");
  const exact = (yes: boolean, method: string): Estimate<"1"> => estimateFrom(yes ? 1 : 0, "1", method, []);
  if (seen !== null && shown !== null && seen !== shown) {
    const message = `The run sheet says ${word(seen)}, the hub shows ${word(shown)}: ${path?.reason ?? ""}. Look at the trace, and correct the sheet or exclude the run`;
    return { estimate: undetermined("1", `the run sheet says ${word(seen)}, the hub shows ${word(shown)}`), findings: [finding("climb-outcome-differs", "look", message, { channel: "hubHeight" })] };
  }
  if (seen !== null) return { estimate: exact(seen, shown === null ? `as written on the run sheet; the hub does not tell${path === null ? "" : `: ${path.reason}`}` : `as written on the run sheet, and ${path?.reason ?? ""}`), findings: [] };
  if (shown !== null) return { estimate: exact(shown, path?.reason ?? ""), findings: [] };
  const reason = path === null ? "nobody wrote the outcome down and no hub height was recorded" : `nobody wrote the outcome down, and ${path.reason}`;
  return { estimate: undetermined("1", reason), findings: [finding("climb-outcome-open", "look", `Whether the wheel got over is not known: ${reason}. Fill in the column "climbed" on the run sheet`)] };
}

function torqueMeasures(run: PreparedRun, drive: Segment, before: Segment): { readonly peak: Estimate<"N.m">; readonly energy: Estimate<"J"> } {
  const torque = within(run, "wheelTorque", "N.m", drive);
  const pairs = pairedSamples(run, { name: "wheelTorque", unit: "N.m" }, { name: "wheelAngle", unit: "rad" });
  if (torque === null || pairs === null || torque.values.length < 10) {
    const reason = torque === null ? "no wheel torque was recorded" : "fewer than 10 samples of torque while the wheel turned";
    return { peak: undetermined("N.m", reason), energy: undetermined("J", reason) };
  }
  // where the wheel stands, torque does no work: nothing of the drive is lost at ends that are not known better
  const { first, second } = cut(pairs, { ...drive, fromS: drive.fromS - judgedOverS, toS: drive.toS + judgedOverS });
  const work = driveWork(first, second);
  const quiet = within(run, "wheelTorque", "N.m", before)?.values ?? [];
  const noise = quiet.length > 2 ? standardDeviation(quiet) : 0;
  const turned = (second.at(-1) ?? 0) - (second[0] ?? 0);
  return {
    peak: peakTorque(torque.values, quiet, torque.rateHz, torque.doubt, run.plan.id),
    energy: estimateFrom(work, "J", "torque over the wheel's angle while it was driven; drag of hub and seal inside", [calibrationRow(torque.doubt, work, "torque"), { cause: `zero of the torque, ${run.plan.id}`, effect: (torque.doubt?.offset ?? 0) * turned, sharedBy: null, degreesOfFreedom: Infinity }, { cause: `noise of the torque, ${run.plan.id}`, effect: workNoise(noise, second), sharedBy: null, degreesOfFreedom: Math.max(1, quiet.length - 1) }]),
  };
}

type Named = readonly [name: string, label: string, estimate: Estimate];

function accelerationMeasures(run: PreparedRun, drive: Segment, before: Segment): Named[] {
  const hub = within(run, "hubAcceleration", "m/s2", drive);
  const rest = within(run, "hubAcceleration", "m/s2", before);
  if (hub === null || rest === null || hub.values.length < 10 || rest.values.length < 10) return [];
  const zero = mean(rest.values);
  const noise = standardDeviation(rest.values);
  const moved = hub.values.map((value) => value - zero);
  const peak = moved.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const rms = Math.sqrt(mean(moved.map((value) => value ** 2)));
  const how = `unfiltered, at ${hub.rateHz.toFixed(0)} Hz, from its mean before the drive; comparable only at that rate`;
  const rows = (value: number, effect: number): BudgetRow[] => [calibrationRow(hub.doubt, value, "hub acceleration"), { cause: `noise of the acceleration, ${run.plan.id}`, effect, sharedBy: null, degreesOfFreedom: rest.values.length - 1 }];
  return [
    ["peakHubAcceleration", "Greatest hub acceleration", estimateFrom(peak, "m/s2", `greatest size, ${how}`, rows(peak, noise))],
    ["rmsHubAcceleration", "Hub acceleration, root mean square", estimateFrom(rms, "m/s2", `root mean square, noise inside, ${how}`, rows(rms, noise ** 2 / (2 * rms)))],
  ];
}

/** Mean load or pull over a stretch, with what is stated of its channel. */
function meanForce(run: PreparedRun, name: "verticalLoad" | "drawbarPull", stretch: Segment, when: string): Estimate<"N"> | null {
  const found = within(run, name, "N", stretch);
  if (found === null || found.values.length < 10) return null;
  const value = mean(found.values);
  return estimateFrom(value, "N", `mean ${when}`, [calibrationRow(found.doubt, value, name), { cause: `zero of the ${name}, ${run.plan.id}`, effect: found.doubt?.offset ?? 0, sharedBy: null, degreesOfFreedom: Infinity }]);
}

/** What statics asks of a rigid wheel at this step, beside what was measured. A rock is no step. */
function staticMeasures(run: PreparedRun, obstacle: Obstacle, peak: Estimate<"N.m">, before: Segment, drive: Segment): Named[] {
  if (run.wheel === null || obstacle.edge === "rock") return [];
  const radius = recordedRadius(run.wheel, run.rig);
  const step = (radiusM: number) => ({ radiusM, heightM: obstacle.heightM });
  const load = meanForce(run, "verticalLoad", before, "while standing before the drive") ?? undetermined("N", "no vertical load was recorded, so the torque that statics asks for is not known");
  const pull = meanForce(run, "drawbarPull", drive, "over the drive") ?? estimateFrom(0, "N", "no pull was recorded: taken as none", []);
  const needed = obstacle.heightM < radius.value
    ? fromDetermined([radius, load, pull], (r = Number.NaN, w = Number.NaN, d = Number.NaN) => stepTorque(step(r), w, d), "N.m", `T = W·√(2rh − h²) + D·(r − h) for a rigid wheel; ${radius.method}; pull: ${pull.method}`)
    : undetermined("N.m", "the step is as high as the axle or higher: no torque lifts a wheel over it");
  const friction = obstacle.heightM < radius.value ? combine([radius], (r = Number.NaN) => stepFriction(step(r)), "1", "μ = √(2rh − h²)/(r − h) for a wheel that nothing pushes") : undetermined("1", "the step is as high as the axle or higher");
  return [
    ["staticTorque", "Torque that statics asks for", needed],
    ["peakOverStaticTorque", "Greatest torque over that of statics", fromDetermined([peak, needed], (a = Number.NaN, b = Number.NaN) => a / b, "1", "ratio; above 1 by inertia, hub drag and a rim that gives way, below 1 where the wheel did not get over or was pushed")],
    ["frictionNeeded", "Friction a lone wheel needs at this step", friction],
  ];
}
