import { quantities } from "../campaign/quantities.ts";
import type { TolerancePair } from "../campaign/tolerances.ts";
import { finding } from "../core/finding.ts";
import type { Finding, Severity } from "../core/finding.ts";
import { likelyUnit } from "../core/likelyUnit.ts";
import { studentTQuantile } from "../numerics/distributions.ts";
import { lineFit } from "../numerics/lineFit.ts";
import { driftKey } from "./conditioning/zero.ts";
import type { RevolutionWindow } from "./conditioning/window.ts";
import type { WindowChoice } from "./dayResult.ts";
import { pullCoefficient } from "./measures/pullCoefficient.ts";
import { derive, spread, toEstimate } from "./measures/reading.ts";
import type { Reading } from "./measures/reading.ts";
import type { PreparedRun } from "./preparedRun.ts";
import type { TractionReadings } from "./tractionRun.ts";

export interface TractionCheckInput {
  readonly run: PreparedRun;
  readonly window: RevolutionWindow;
  readonly readings: TractionReadings;
  readonly slip: Reading<"1"> | null;
  readonly skids: boolean;
  readonly choices: readonly WindowChoice[];
}

/** Whether the window of a traction run is fit to be averaged, and whether its numbers can be true together. */
export function tractionFindings(input: TractionCheckInput): Finding[] {
  const { run, window, readings } = input;
  const { tolerances } = run.rig;
  const { load, pull, sideForce } = readings;
  const where = { fromS: window.segment.fromS, toS: window.segment.toS };
  const findings: Finding[] = [];
  const judge = (code: string, measured: number, limits: TolerancePair, message: (severity: Severity) => string, channel: string | null = null): void => {
    if (!(measured > limits.look)) return;
    const severity = measured > limits.reject ? "reject" : "look";
    findings.push(finding(code, severity, message(severity), { ...where, channel, measured, limit: limits[severity] }));
  };
  const percent = (value: number): string => `${(100 * value).toFixed(1)} %`;

  const loads = spread(load);
  judge("load-spread", loads.sd / Math.abs(loads.mean), tolerances.loadSpread, () => `The vertical load varies by ${percent(loads.sd / Math.abs(loads.mean))} between revolutions. Look at the load slide, the off-loading and the arm's torque reaction`, "verticalLoad");
  const { setLoadN, setSlip } = run.plan;
  if (setLoadN !== null) judge("load-off", Math.abs(load.value - setLoadN) / setLoadN, tolerances.loadDeviation, () => `The vertical load is ${load.value.toFixed(1)} N where ${setLoadN} N was set. Correct the dead weight or the run sheet.${likelyUnit(load.value / setLoadN, "force")}`, "verticalLoad");
  if (input.slip !== null) {
    const signed = input.skids ? -input.slip.value : input.slip.value;
    judge("slip-spread", spread(input.slip).sd, tolerances.slipSpread, () => `Slip varies by ${spread(input.slip as Reading).sd.toFixed(3)} between revolutions. Look at the drives' speed control`);
    if (setSlip !== null) judge("slip-off", Math.abs(signed - setSlip), tolerances.slipDeviation, () => `Slip is ${signed.toFixed(3)} where ${setSlip.toFixed(3)} was set. Look at the speeds and at the radius that the set point was worked out with`);
  }
  for (const name of ["verticalLoad", "drawbarPull"] as const) {
    const drift = zeroDrift(run, name) / Math.abs(load.value);
    judge("zero-drift-of-mean", drift, tolerances.zeroDriftOfMean, () => `${quantities[name].label}: the zero moved by ${percent(drift)} of the mean vertical load between the blocks before and after the run. Look for a warm sensor or soil on the wheel, and repeat`, name);
  }
  findings.push(...trend(input));
  if (sideForce !== null) judge("side-force", Math.abs(sideForce.value / load.value), tolerances.sideForce, () => `A mean side force of ${sideForce.value.toFixed(2)} N acts on the wheel, ${percent(Math.abs(sideForce.value / load.value))} of the load. Look at toe and hub alignment, and at cross-talk`, "sideForce");
  findings.push(...energy(input));
  const coefficients = input.choices.map((choice) => choice.pullCoefficient);
  const chosen = coefficients[0];
  if (chosen !== undefined) {
    const change = Math.max(...coefficients.map((value) => Math.abs(value - chosen)));
    judge("window-sensitive", change, tolerances.windowSensitivity, () => `The pull coefficient changes by ${change.toFixed(3)} when the window is moved or shortened by a revolution: the run is not quite steady`, "drawbarPull");
  }
  if (!input.skids && pull.value < 0 && setSlip !== null && setSlip > 0.3) {
    findings.push(finding("pull-sign", "look", `The wheel is driven at a slip of ${setSlip} and yet is pulled along (${pull.value.toFixed(1)} N). Look at the sign of the pull channel`, { ...where, channel: "drawbarPull", measured: pull.value, limit: 0 }));
  }
  return findings;
}

/** How far a channel's zero moved during the run; 0 when it was not zeroed. */
function zeroDrift(run: PreparedRun, name: string): number {
  const drifts = run.recordings.flatMap((recording) => recording.history.map((step) => step.parameters[driftKey(name)]));
  return Math.abs(drifts.find((drift) => typeof drift === "number") ?? 0);
}

/** Trend of the pull from revolution to revolution: held against the tolerance only where it stands clear of its own scatter. */
function trend(input: TractionCheckInput): Finding[] {
  const perRevolution = pullCoefficient(input.readings.pull, input.readings.load).perRevolution;
  if (perRevolution.length < 3) return [];
  const fit = lineFit(perRevolution.map((_, i) => i), perRevolution);
  const standardError = Math.sqrt(fit.covariance[1]?.[1] ?? 0);
  const limits = input.run.rig.tolerances.pullSlope;
  const slope = Math.abs(fit.slope);
  if (slope <= limits.look || slope <= studentTQuantile(0.975, fit.degreesOfFreedom) * standardError) return [];
  const severity = slope > limits.reject ? "reject" : "look";
  return [finding("pull-trend", severity, `The pull changes by ${(100 * fit.slope).toFixed(1)} % of the load per revolution: the wheel has not settled, or the bed changes along its way. Use a longer settling zone, or look at the bed`, { fromS: input.window.segment.fromS, toS: input.window.segment.toS, channel: "drawbarPull", measured: slope, limit: limits[severity] })];
}

/** Times its standard uncertainty that an excess of power must pass its limit by. */
const clear = 2;

/**
 * Power out cannot exceed power in. An excess counts from twice its standard uncertainty above the limit on: where nearly all power
 * reaches the drawbar, every second sound run reads above none by its doubt alone.
 */
function energy(input: TractionCheckInput): Finding[] {
  const { torque, turning, pull, speed } = input.readings;
  if (torque === null || Number.isNaN(torque.value) || torque.value * turning.value <= 0) return [];
  const share = derive([pull, speed, torque, turning], (dp = Number.NaN, v = Number.NaN, t = Number.NaN, w = Number.NaN) => (dp * v) / (t * w) - 1, "1");
  const excess = share.value;
  const doubt = clear * (toEstimate(share, input.run.plan.id, "").standardUncertainty ?? Infinity);
  const limits = input.run.rig.tolerances.energyExcess;
  if (!(excess > limits.look + doubt)) return [];
  const severity = excess > limits.reject + doubt ? "reject" : "look";
  return [finding("energy-excess", severity, `The drawbar gives ${(100 * excess).toFixed(1)} ± ${(100 * doubt).toFixed(1)} % more power than the axle receives, which cannot be. Look at the signs and units of torque and pull, and at the clocks`, { fromS: input.window.segment.fromS, toS: input.window.segment.toS, measured: excess, limit: limits[severity] })];
}
