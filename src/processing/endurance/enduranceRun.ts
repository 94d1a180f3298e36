import type { RunPlan, WheelRecord } from "../../campaign/campaign.ts";
import { quantities } from "../../campaign/quantities.ts";
import type { Rig } from "../../campaign/rigSchema.ts";
import { InputError } from "../../core/errors.ts";
import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { BudgetRow, Estimate } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { Measure } from "../../core/measure.ts";
import type { Segment } from "../../core/segment.ts";
import type { Unit } from "../../core/units.ts";
import { carriageFriction } from "../carriageFriction.ts";
import { standingS, standingTimes, tickRad } from "../conditioning/wheelTicks.ts";
import type { Curve, Trace } from "../dayResult.ts";
import { changeOverRun } from "../measures/changeOverRun.ts";
import { energyPerDistance } from "../measures/energyPerDistance.ts";
import { pullCoefficient } from "../measures/pullCoefficient.ts";
import { constantReading, derive, toEstimate } from "../measures/reading.ts";
import type { Reading } from "../measures/reading.ts";
import { brakedSkid, drivenSlip } from "../measures/slip.ts";
import { labelFinding, loggersFor } from "../prepareRun.ts";
import { dragAt, slipRadius } from "../references.ts";
import type { References } from "../references.ts";
import { doubtFindings, doubtRows } from "../rolling.ts";
import type { Reduced } from "../preparedRun.ts";
import type { RunResult } from "../dayResult.ts";
import { energyBalance } from "./energyBalance.ts";
import { enduranceLog } from "./enduranceLog.ts";
import type { EnduranceLog, ReadPieces } from "./enduranceLog.ts";
import { loadLevels } from "./loadLevels.ts";
import { stretchReadings } from "./stretchReadings.ts";
import type { StretchReadings } from "./stretchReadings.ts";

/** An endurance run from its log, however long, to its measures; the log is read in pieces and never held. @throws InputError */
export async function reduceEnduranceRun(plan: RunPlan, wheel: WheelRecord | null, rig: Rig, references: References, inPieces: ReadPieces): Promise<Reduced & Pick<RunResult, "traces" | "sources" | "steps">> {
  const loggers = loggersFor(rig, plan);
  const [only] = loggers;
  if (only === undefined || loggers.length > 1) throw new InputError([{ code: "one-logger", at: `run ${plan.id}`, message: `expected one logger for endurance runs, found ${loggers.map(([name]) => name).join(" and ") || "none"}`, hint: "Name the kind endurance under one logger in rig.yaml, which records angle, position and load on one clock" }]);
  const log = await enduranceLog(plan, wheel, rig, only[0], only[1], inPieces);
  const label = labelFinding(log.table, only[1].runLabel, plan.sheetId);
  const segment: Segment = { kind: "run", fromS: log.startS, toS: log.endS, reason: "the whole log; the wheel's standing still left out" };
  const told = { traces: [] as Trace[], sources: [log.table.source], steps: log.ends.history };
  const findings = [...(label === null ? [] : [label]), ...log.findings, ...doubtFindings({ plan, wheel, rig, recordings: [log.ends] }, [...log.names, "carriagePosition"])];
  if (log.rolled.whole.length === 0) {
    const turned = log.rolled.total.turnedRad / (2 * Math.PI);
    return { ...told, measures: [], fits: [], windowChoices: [], segments: [...log.segments, segment], findings: [...findings, finding("no-revolution", "reject", `The wheel turned ${turned.toFixed(2)} times in this log; an endurance run needs at least one whole revolution`, { channel: "wheelAngle", measured: turned, limit: 1 })] };
  }
  const read = stretchReadings(log, plan.id);
  const { measures, found, over } = measured(log, read, plan, wheel, rig, references);
  const levels = loadLevels(log, plan.id);
  const whole = totals(log, read, plan.id);
  const total = (name: string): Estimate | undefined => whole.find((measure) => measure.name === name)?.estimate;
  return {
    measures: [...whole, ...measures].map((measure) => ({ ...measure, segment })),
    curves: [...over, ...levels.curves],
    fits: [],
    windowChoices: [],
    segments: [...log.segments, segment],
    findings: [...findings, ...found, ...levels.findings, ...energyBalance(total("axleEnergy"), total("pullWork"), rig)],
    ...told,
    traces: over.map(({ name, y }): Trace => ({ channel: name, label: y.label, unit: y.unit, timesS: read.atS, values: y.values })),
  };
}

type Named = Omit<Measure, "segment">;

/** Path, revolutions, time and work of the whole run. */
function totals(log: EnduranceLog, read: StretchReadings, run: string): Named[] {
  const { total } = log.rolled;
  const { stops, reversals, startRad, startM } = log.ticks;
  const revolutions = (total.turnedRad + startRad) / (2 * Math.PI);
  const distance = total.travelledM + startM;
  const runningS = (total.runningS * (total.turnedRad + startRad)) / total.turnedRad;
  // Before a stop, and on either side of a turn back, less than a tick is dropped.
  const dropped = ((stops + 2 * reversals + 1) * tickRad) / (2 * Math.PI);
  const ends = (effect: number): BudgetRow[] => [{ cause: `ends of motion cut to a hundredth of a revolution, ${run}`, effect: effect / Math.sqrt(3), sharedBy: null, degreesOfFreedom: Infinity, shape: "rectangular" }];
  const position = log.ends.channels.find(({ name }) => name === "carriagePosition");
  const gains = position === undefined ? [] : doubtRows(position, distance, run, false);
  const said = `${stops} stops, ${reversals} reversals`;
  const works = [
    ["axleEnergy", "Energy at the axle, drag included", read.work("wheelTorque", "byAngle")],
    ["pullWork", "Work of the pull", read.work("drawbarPull", "byPath")],
  ] as const;
  return [
    { name: "distance", label: "Path travelled", estimate: estimateFrom(distance, "m", `along the wheel's rolling; ${said}`, [...gains, ...ends((distance / revolutions) * dropped)]) },
    { name: "revolutions", label: "Revolutions, either way", estimate: estimateFrom(revolutions, "1", `encoder; ${said}`, ends(dropped)) },
    { name: "runningTime", label: "Running time", estimate: estimateFrom(runningS, "s", `a hundredth of a revolution within ${standingS} s, and ${standingTimes} times that of the one before, counts as running; stood for ${log.ticks.standingS.toFixed(0)} s, left out ${log.ticks.leftOutS.toFixed(1)} s at pauses and missing samples`, ends((runningS / revolutions) * dropped)) },
    ...works.flatMap(([name, label, work]): Named[] => (work === null ? [] : [{ name, label, estimate: estimateFrom(work.value, "J", "sum over hundredths of a revolution", work.rows) }])),
  ];
}

/** Means of the run with the scatter of its stretches, their change over the run, and the same stretch by stretch. */
function measured(log: EnduranceLog, read: StretchReadings, plan: RunPlan, wheel: WheelRecord | null, rig: Rig, references: References): { measures: Named[]; found: Finding[]; over: Curve[] } {
  const measures: Named[] = [];
  const found: Finding[] = [];
  const over: Curve[] = [];
  const n = log.rolled.whole.length;
  const means = `mean over ${n} stretches of ${log.rolled.revolutionsEach()} revolution${log.rolled.revolutionsEach() === 1 ? "" : "s"}`;
  const give = (name: string, label: string, reading: Reading, rests: readonly Estimate[] = [], trend: "trend" | "no trend" = "trend"): void => {
    const lacking = rests.find((estimate) => estimate.standardUncertainty === null);
    measures.push({ name, label, estimate: lacking === undefined ? toEstimate(reading, plan.id, means) : undetermined(reading.unit, lacking.method) });
    if (trend === "no trend" || lacking !== undefined) return;
    // A gain multiplies slip's other part, 1 − s, and with it the change of either.
    const proportional = name === "slip" || name === "skid" ? reading.value - 1 : reading.value;
    const gains = reading.rows.filter((row) => row.sharedBy !== null).map((row) => ({ ...row, effect: row.effect / proportional }));
    // The zeros before and after the run err apart: their difference by at most twice what their mean does.
    const zeros = reading.rows.filter((row) => row.sharedBy === null && row.cause.startsWith("zero of ")).map((row) => ({ ...row, effect: 2 * row.effect }));
    measures.push({ name: `${name}Change`, label: `${label}, change over the run`, estimate: changeOverRun(reading, read.atM, log.rolled.total.travelledM, gains, zeros, plan.id) });
    over.push(curve(name, label, reading, read.atM, means));
  };
  const load = read.mean("verticalLoad", "N", false) as Reading<"N">;
  const { speed, turning } = read;
  give("carriageSpeed", "Carriage speed while running", speed, [], "no trend");
  give("wheelSpeed", "Wheel speed while running", turning, [], "no trend");
  give("verticalLoad", "Vertical load", load);
  const radius = wheel === null ? undetermined("m", "the run names no wheel that wheels.csv knows") : slipRadius(rig, wheel, load.value, references);
  const r = constantReading(radius, n);
  const skids = speed.value > turning.value * radius.value;
  give(skids ? "skid" : "slip", skids ? "Skid (braked)" : "Slip (driven)", skids ? brakedSkid(speed, turning, r) : drivenSlip(speed, turning, r), [radius]);
  const measuredPull = read.mean("drawbarPull", "N", true);
  if (measuredPull !== null) {
    const friction = carriageFriction(rig, speed);
    found.push(...friction.findings);
    const pull = friction.reading === null ? measuredPull : derive([measuredPull, friction.reading], (dp = Number.NaN, f = Number.NaN) => dp - f, "N");
    give("drawbarPull", "Drawbar pull", pull);
    give("pullCoefficient", "Pull coefficient", pullCoefficient(pull, load));
  }
  const measuredTorque = read.mean("wheelTorque", "N.m", true);
  if (measuredTorque !== null) {
    const drag = wheel === null ? undetermined("N.m", "the run names no wheel that wheels.csv knows") : dragAt(wheel, turning.value, references);
    const torque = derive([measuredTorque, constantReading(drag, n)], (t = Number.NaN, t0 = Number.NaN) => t - t0, "N.m");
    give("wheelTorque", "Wheel torque", torque, [drag]);
    give("energyPerDistance", "Energy per distance", energyPerDistance(torque, turning, speed), [drag]);
    if (drag.standardUncertainty === null) found.push(finding("drag-unknown", "look", `Torque and what follows from it cannot be given: ${drag.method}. Spin the wheel in the air at this speed`, { channel: "wheelTorque" }));
  }
  for (const name of log.names as readonly ("verticalLoad" | "drawbarPull" | "wheelTorque")[]) {
    const { unit, label } = quantities[name];
    const ripple = read.ripple(name, unit);
    if (ripple !== null) give(`${name}Scatter`, `${label}, standard deviation within a stretch`, ripple, [], "no trend");
  }
  return { measures, found, over };
}

function curve(name: string, label: string, reading: Reading<Unit>, atM: readonly number[], method: string): Curve {
  return { name: `${name}AlongPath`, x: { label: "Path travelled", unit: "m", values: atM }, y: { label, unit: reading.unit, values: reading.perRevolution }, yUncertainty: null, method };
}
