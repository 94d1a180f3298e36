import type { Estimate } from "../core/estimate.ts";
import { undetermined } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Measure } from "../core/measure.ts";
import { loadShift } from "./checks/loadShift.ts";
import { standingChecks } from "./checks/runChecks.ts";
import { rollingWindow } from "./rolling.ts";
import { sweptCurve } from "./measures/sweptCurve.ts";
import type { SweptPoint } from "./measures/sweptCurve.ts";
import { pullCoefficient } from "./measures/pullCoefficient.ts";
import { constantReading, toEstimate } from "./measures/reading.ts";
import { signedSlip } from "./measures/slip.ts";
import type { PreparedRun, Reduced } from "./preparedRun.ts";
import { slipRadius } from "./references.ts";
import type { References } from "./references.ts";
import { tractionReadings } from "./tractionRun.ts";

/**
 * A run whose slip is driven up and down again: one point a whole revolution, the lag of the pull behind the slip taken off,
 * what is left between the way up and the way down stated as hysteresis. A screening: runs at one slip each are the measurement.
 */
export function reduceSweepRun(run: PreparedRun, references: References): Reduced {
  const { window, findings: windowFindings } = rollingWindow(run, true);
  const nothing: Reduced = { measures: [], fits: [], findings: windowFindings, segments: [], windowChoices: [] };
  if (window === null) return nothing;
  const read = tractionReadings(run, window, references);
  if (typeof read === "string") return { ...nothing, findings: [...windowFindings, finding("channel-missing", "reject", read)] };
  const { speed, turning, load, pull } = read.readings;
  const n = speed.perRevolution.length;
  const radius: Estimate<"m"> = run.wheel === null ? undetermined("m", "the run names no wheel that wheels.csv knows") : slipRadius(run.rig, run.wheel, load.value, references);
  const slips = signedSlip(speed, turning, constantReading(radius, n)).perRevolution;
  const coefficient = pullCoefficient(pull, load);
  const points = slips.map((slip, i): SweptPoint => ({ timeS: ((window.boundariesS[i] as number) + (window.boundariesS[i + 1] as number)) / 2, slip, pull: coefficient.perRevolution[i] as number }));
  const measures: Measure[] = [
    { name: "verticalLoad", label: "Vertical load", estimate: toEstimate(load, run.plan.id, `mean over ${n} whole revolutions`), segment: window.segment },
    { name: "slipRadius", label: "Radius for slip", estimate: radius, segment: window.segment },
  ];
  const findings: Finding[] = [...windowFindings, ...read.findings, ...standingChecks(run), ...loadShift(run, load.value)];
  if (radius.standardUncertainty === null) {
    findings.push(finding("radius-unknown", "reject", `Slip cannot be given: ${radius.method}. Run the wheel on the hard floor at this load`));
    return { ...nothing, measures, findings, segments: [window.segment] };
  }
  const swept = sweptCurve(points, run.plan.id, coefficient.rows, radius, run.rig.reportPullAtSlip);
  const add = (name: string, label: string, estimate: Estimate): void => void measures.push({ name, label, estimate, segment: window.segment });
  add("slipRate", "Slip rate of the sweep", swept.slipRate);
  add("responseLag", "Lag of the pull behind the slip", swept.lag);
  add("sweepHysteresis", "Pull coefficient, way up less way down", swept.hysteresis);
  for (const { slip, estimate } of swept.atSlip) add(`pullCoefficientAt${Math.round(100 * slip)}`, `Pull coefficient at ${Math.round(100 * slip)} % slip, from the sweep`, estimate);
  if (swept.fit.verdict !== "determined") findings.push(finding("sweep-undetermined", "look", `The sweep gives no curve: ${swept.fit.sentence} Sweep slowly, up and down again, from no slip to well past the bend`));
  return { measures, curves: swept.curves, fits: [swept.fit], findings, segments: [window.segment], windowChoices: [] };
}
