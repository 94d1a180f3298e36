import { undetermined } from "../core/estimate.ts";
import type { BudgetRow } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Measure } from "../core/measure.ts";
import type { Segment } from "../core/segment.ts";
import { turningStretch } from "./conditioning/motion.ts";
import { meanOver } from "./conditioning/slope.ts";
import { firstTouch } from "./conditioning/touch.ts";
import type { RevolutionWindow } from "./conditioning/window.ts";
import { constantReading, derive, toEstimate } from "./measures/reading.ts";
import type { Reading } from "./measures/reading.ts";
import { sinkage } from "./measures/sinkage.ts";
import { find } from "./preparedRun.ts";
import type { PreparedRun } from "./preparedRun.ts";
import { deflectionOf } from "./references.ts";
import type { References } from "./references.ts";
import { eachRevolution, timed } from "./rolling.ts";
import { scannedBed } from "./scannedBed.ts";

/** The wheel stands loaded and still for this long before it starts [s]; static sinkage is taken there. */
const standingS = 0.5;

/** Hub drop, static and running sinkage: zero at first touch, on the scanned surface where there is a scan, the wheel's own deflection taken off. */
export function runSinkage(run: PreparedRun, window: RevolutionWindow, load: Reading<"N">, references: References): { readonly measures: readonly Measure[]; readonly findings: readonly Finding[]; readonly segments: readonly Segment[] } {
  const hub = find(run, "hubHeight", "m");
  const loadTimed = timed(run, "verticalLoad", "N");
  const angle = timed(run, "wheelAngle", "rad");
  const none = { measures: [], findings: [], segments: [] };
  if (hub === null || loadTimed === null || angle === null || run.rig.zero === undefined || run.wheel === null) return none;
  const turning = turningStretch(angle.time, angle.samples);
  if (turning === null) return none;
  const quietToS = (loadTimed.time.kind === "uniform" ? loadTimed.time.startS : (loadTimed.time.timesS[0] as number)) + run.rig.zero.beforeS;
  const touch = firstTouch(loadTimed, { time: hub.time, samples: hub.channel.samples }, quietToS, turning.fromS);
  if ("reason" in touch) {
    const estimate = undetermined("m", `sinkage has no zero: ${touch.reason}`);
    return { ...none, measures: [{ name: "sinkageRunning", label: "Sinkage, running", estimate, segment: null }], findings: [finding("touch-unknown", "look", `Sinkage cannot be given: ${touch.reason}. Lower the wheel slowly after the zero block`, { channel: "hubHeight" })] };
  }
  const { doubt, samples } = hub.channel;
  const drop = (name: string, heights: readonly number[], value: number): Reading<"m"> => {
    const dropped = touch.hubHeightM - value;
    const rows: BudgetRow[] = [
      { cause: `shape of the first touch, ${run.plan.id}`, effect: touch.shapeM, sharedBy: null, degreesOfFreedom: Infinity, shape: "rectangular" },
      { cause: `noise at first touch, ${run.plan.id}`, effect: touch.noiseM, sharedBy: null, degreesOfFreedom: touch.noiseDegreesOfFreedom },
    ];
    if (doubt !== null) rows.push({ cause: `calibration ${doubt.calibration}, ${name}`, effect: doubt.relativeGain * dropped, sharedBy: `calibration ${doubt.calibration}`, degreesOfFreedom: Infinity });
    return { unit: "m", value: dropped, perRevolution: heights.map((height) => touch.hubHeightM - height), rows };
  };
  const heights = eachRevolution(window, (fromS, toS) => meanOver(hub.time, samples, fromS, toS).mean);
  const running = drop("hubHeight", heights, heights.reduce((sum, height) => sum + height, 0) / heights.length);
  const standing: Segment = { kind: "static", fromS: turning.fromS - standingS, toS: turning.fromS, reason: `${standingS} s of standing before the wheel starts` };
  const standingHeight = meanOver(hub.time, samples, standing.fromS, standing.toS).mean;
  const standingLoad = meanOver(loadTimed.time, loadTimed.samples, standing.fromS, standing.toS).mean;
  const halves = [meanOver(hub.time, samples, standing.fromS, standing.fromS + standingS / 2).mean, meanOver(hub.time, samples, standing.fromS + standingS / 2, standing.toS).mean];
  const { bed } = scannedBed(run, window);
  const sunk = bed === null ? running : derive([running, bed.rise], (dropped = Number.NaN, rise = Number.NaN) => dropped + rise, "m");
  const measure = (name: string, label: string, dropped: Reading<"m">, atLoadN: number, segment: Segment, where: string): Measure => {
    const deflection = deflectionOf(run.wheel as NonNullable<PreparedRun["wheel"]>, atLoadN, references);
    const method = `hub drop since first touch, ${where}; ${deflection.method}, taken off`;
    const estimate = deflection.standardUncertainty === null ? undetermined("m", deflection.method) : toEstimate(sinkage(dropped, constantReading(deflection, dropped.perRevolution.length)), run.plan.id, method);
    return { name, label, estimate, segment };
  };
  const measures: Measure[] = [
    { name: "hubDrop", label: "Hub drop, running", estimate: toEstimate(running, run.plan.id, "hub drop since first touch, mean over whole revolutions"), segment: window.segment },
    measure("sinkageRunning", "Sinkage, running", sunk, load.value, window.segment, `mean over whole revolutions${bed === null ? "" : ", from the scanned surface under each"}`),
    measure("sinkageStatic", "Sinkage, standing", drop("hubHeight", halves, standingHeight), standingLoad, standing, "standing still before the start"),
  ];
  return { measures, findings: [], segments: [standing] };
}
