import { undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Measure } from "../core/measure.ts";
import type { Unit } from "../core/units.ts";
import { forcesOnWheel } from "./forcesOnWheel.ts";
import type { ForcesOnWheel } from "./forcesOnWheel.ts";
import { carriageFriction } from "./carriageFriction.ts";
import { tractionRunChecks } from "./checks/runChecks.ts";
import type { RevolutionWindow } from "./conditioning/window.ts";
import { byTrials } from "./measures/byTrials.ts";
import { energyPerDistance } from "./measures/energyPerDistance.ts";
import { grossTractionRatio } from "./measures/grossTractionRatio.ts";
import { motionResistanceRatio } from "./measures/motionResistanceRatio.ts";
import { powerNumber } from "./measures/powerNumber.ts";
import { pullCoefficient } from "./measures/pullCoefficient.ts";
import { constantReading, derive, toEstimate } from "./measures/reading.ts";
import type { Reading } from "./measures/reading.ts";
import { pullPerDegreeOfYaw, sideForceRatio } from "./measures/sideForceRatio.ts";
import { brakedSkid, drivenSlip } from "./measures/slip.ts";
import { tractiveEfficiency } from "./measures/tractiveEfficiency.ts";
import type { PreparedRun, Reduced } from "./preparedRun.ts";
import { dragAt, slipRadius } from "./references.ts";
import type { References } from "./references.ts";
import { bedMeasures, laneCurves, scannedBed } from "./scannedBed.ts";
import { doubtFindings, meanReading, rollingWindow, slopeReading } from "./rolling.ts";
import { ripple } from "./ripple.ts";
import { runSinkage } from "./runSinkage.ts";
import { slipByRadius } from "./slipByRadius.ts";
import { standingSideForce } from "./standingSideForce.ts";
import { tractionFindings } from "./tractionFindings.ts";
import { windowChoices } from "./windowChoices.ts";

/** The readings of a traction run over its window; null = no logger recorded it. */
export interface TractionReadings {
  readonly speed: Reading<"m/s">;
  readonly turning: Reading<"rad/s">;
  readonly load: Reading<"N">;
  readonly pull: Reading<"N">;
  readonly torque: Reading<"N.m"> | null;
  readonly sideForce: Reading<"N"> | null;
}

/** Slip, pull, torque, ratios, efficiency and sinkage of one run, over its steady window. */
export function reduceTractionRun(run: PreparedRun, references: References): Reduced {
  const { window, findings: windowFindings } = rollingWindow(run, true);
  const nothing = { measures: [], fits: [], segments: [], windowChoices: [] };
  if (window === null) return { ...nothing, findings: windowFindings };
  const read = tractionReadings(run, window, references);
  if (typeof read === "string") return { ...nothing, findings: [...windowFindings, finding("channel-missing", "reject", read)] };
  const { speed, turning, load, pull, torque, sideForce } = read.readings;
  const { wheel, plan } = run;
  const n = speed.perRevolution.length;
  const measures: Measure[] = [];
  const add = (name: string, label: string, estimate: Estimate): void => void measures.push({ name, label, estimate, segment: window.segment });
  const over = (what: string): string => `${what} over ${n} whole revolutions`;
  add("carriageSpeed", "Carriage speed", toEstimate(speed, plan.id, over("slope of the carriage position")));
  add("wheelSpeed", "Wheel speed", toEstimate(turning, plan.id, over("slope of the wheel angle")));
  add("verticalLoad", "Vertical load", toEstimate(load, plan.id, `${over(read.says.load.what)}${read.says.load.then}`));
  add("drawbarPull", "Drawbar pull", toEstimate(pull, plan.id, `${over(read.says.pull.what)}${read.says.pull.then}`));
  const coefficient = pullCoefficient(pull, load);
  add("pullCoefficient", "Drawbar pull coefficient", known(coefficient, [], run, over("drawbar pull over vertical load")));
  if (sideForce !== null) {
    add("sideForce", "Side force", toEstimate(sideForce, plan.id, over("mean")));
    add("sideForceRatio", "Side force ratio", toEstimate(sideForceRatio(sideForce, load), plan.id, over("side force over vertical load")));
    add("pullPerDegreeOfYaw", "Pull that a degree of yaw would bring", toEstimate(pullPerDegreeOfYaw(sideForce), plan.id, over("side force times sin 1°")));
    measures.push(...standingSideForce(run));
  }

  const radius = wheel === null ? undetermined("m", "the run names no wheel that wheels.csv knows") : slipRadius(run.rig, wheel, load.value, references);
  add("slipRadius", "Radius for slip", radius);
  const r = constantReading(radius, n);
  const skids = speed.value > turning.value * radius.value;
  const slip = skids ? brakedSkid(speed, turning, r) : drivenSlip(speed, turning, r);
  add(skids ? "skid" : "slip", skids ? "Skid (braked)" : "Slip (driven)", known(slip, [radius], run, over(`${skids ? "1 − rω/v" : "1 − v/(rω)"}, ${radius.method},`)));
  if (wheel !== null) measures.push(...slipByRadius({ id: plan.id, rig: run.rig, wheel }, speed, turning, load.value, references, window.segment));

  if (torque !== null) {
    const drag = read.drag;
    add("wheelTorque", "Wheel torque", known(torque, [drag], run, `${over("mean, free-spin drag removed,")}${read.says.torque.then}`));
    add("grossTractionRatio", "Gross traction ratio", known(grossTractionRatio(torque, r, load), [radius, drag], run, over("T/(rW)")));
    add("motionResistanceRatio", "Motion resistance ratio", known(motionResistanceRatio(torque, r, pull, load), [radius, drag], run, over("(T/r − DP)/W")));
    add("tractiveEfficiency", "Tractive efficiency", skids ? undetermined("1", "the wheel is braked: power flows from the carriage to the axle, and an efficiency of traction does not apply") : known(tractiveEfficiency(pull, speed, torque, turning), [drag], run, over("DP·v/(T·ω)")));
    add("powerNumber", "Power number", known(powerNumber(torque, turning, load, speed), [drag], run, over("T·ω/(W·v)")));
    add("energyPerDistance", "Energy per distance", known(energyPerDistance(torque, turning, speed), [drag], run, over("T·ω/v")));
  }
  const sunk = runSinkage(run, window, load, references);
  measures.push(...sunk.measures);
  const { bed } = scannedBed(run, window);
  if (bed !== null) measures.push(...bedMeasures(bed, window));
  const round = ripple(run, window);
  measures.push(...round.measures);
  const choices = windowChoices(run, window, read.shiftN);
  const findings: Finding[] = [
    ...windowFindings,
    ...sunk.findings,
    ...read.findings,
    ...tractionFindings({ run, window, readings: read.readings, slip: radius.standardUncertainty === null ? null : slip, skids, choices }),
    ...tractionRunChecks({ run, window, readings: read.readings, measures, radiusM: radius.value, slip: skids ? -slip.value : slip.value, references }),
    ...doubtFindings(run, ["verticalLoad", "drawbarPull", "wheelTorque", "carriagePosition", "hubHeight"]),
  ];
  if (radius.standardUncertainty === null) findings.push(finding("radius-unknown", "reject", `Slip cannot be given: ${radius.method}. Run the wheel on the hard floor at this load`));
  return { measures, curves: [...round.curves, ...laneCurves(run)], fits: [], findings, segments: [window.segment, ...sunk.segments], windowChoices: choices };
}

/** A Reading as an Estimate, unless one of the references it rests on is not determined: then that reason is the answer. */
function known<U extends Unit>(reading: Reading<U>, rests: readonly Estimate[], run: PreparedRun, method: string): Estimate<U> {
  const lacking = rests.find((estimate) => estimate.standardUncertainty === null);
  if (lacking !== undefined) return undetermined(reading.unit, lacking.method);
  const estimate = toEstimate(reading, run.plan.id, method);
  return run.rig.trials === true ? byTrials(reading, estimate) : estimate;
}

/** Speed, turning, load, pull, torque and side force over a window, corrected; a sentence where one that is needed was not recorded. */
export function tractionReadings(run: PreparedRun, window: RevolutionWindow, references: References): { readings: TractionReadings; says: ForcesOnWheel["says"]; shiftN: ForcesOnWheel["shiftN"]; drag: Estimate<"N.m">; findings: Finding[] } | string {
  const speed = slopeReading(run, "carriagePosition", "m", "m/s", window);
  const turning = slopeReading(run, "wheelAngle", "rad", "rad/s", window);
  const forces = speed === null || turning === null ? null : forcesOnWheel(run, window, { speed, turning });
  if (speed === null || turning === null || forces === null) return "A traction run needs carriage position, wheel angle, vertical load and drawbar pull; one of them is in no log of this run";
  const friction = carriageFriction(run.rig, speed);
  const pull = friction.reading === null ? forces.pull : derive([forces.pull, friction.reading], (dp = Number.NaN, f = Number.NaN) => dp - f, "N");
  const drag = run.wheel === null ? undetermined("N.m", "the run names no wheel that wheels.csv knows") : dragAt(run.wheel, turning.value, references);
  const torque = forces.torque === null ? null : derive([forces.torque, constantReading(drag, forces.torque.perRevolution.length)], (t = Number.NaN, t0 = Number.NaN) => t - t0, "N.m");
  const findings = [...forces.findings, ...friction.findings];
  if (torque !== null && drag.standardUncertainty === null) findings.push(finding("drag-unknown", "look", `Torque and what follows from it cannot be given: ${drag.method}. Spin the wheel in the air at this speed`, { channel: "wheelTorque" }));
  const shiftN = { load: forces.shiftN.load, pull: forces.shiftN.pull - (friction.reading?.value ?? 0) };
  return { says: forces.says, shiftN, readings: { speed, turning, load: forces.load, pull, torque, sideForce: meanReading(run, "sideForce", "N", window) }, drag, findings };
}
