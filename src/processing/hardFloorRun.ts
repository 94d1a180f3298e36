import type { Measure } from "../core/measure.ts";
import { encoderRatio } from "./checks/encoderRatio.ts";
import { standingChecks } from "./checks/runChecks.ts";
import { carriageSpeedFindings } from "./checks/speeds.ts";
import { rollingRadius } from "./measures/rollingRadius.ts";
import { toEstimate } from "./measures/reading.ts";
import { forcesOnWheel } from "./forcesOnWheel.ts";
import type { PreparedRun, Reduced } from "./preparedRun.ts";
import { doubtFindings, meanReading, rollingWindow, slopeReading } from "./rolling.ts";
import { runSinkage } from "./runSinkage.ts";

/** Effective rolling radius of a wheel on a hard floor, at the load of the run. */
export function reduceHardFloorRun(run: PreparedRun): Reduced {
  const { window, findings } = rollingWindow(run, true);
  if (window === null) return { measures: [], fits: [], findings, segments: [], windowChoices: [] };
  const measures: Measure[] = [];
  const speed = slopeReading(run, "carriagePosition", "m", "m/s", window);
  const turning = slopeReading(run, "wheelAngle", "rad", "rad/s", window);
  const forces = speed === null || turning === null ? null : forcesOnWheel(run, window, { speed, turning });
  const load = forces?.load ?? meanReading(run, "verticalLoad", "N", window);
  const pull = forces?.pull ?? meanReading(run, "drawbarPull", "N", window);
  const over = `over ${window.boundariesS.length - 1} whole revolutions`;
  if (speed !== null && turning !== null) {
    measures.push(
      { name: "rollingRadius", label: "Effective rolling radius", estimate: toEstimate(rollingRadius(speed, turning), run.plan.id, `distance per radian ${over}`), segment: window.segment },
      { name: "carriageSpeed", label: "Carriage speed", estimate: toEstimate(speed, run.plan.id, `slope of the carriage position ${over}`), segment: window.segment },
      { name: "wheelSpeed", label: "Wheel speed", estimate: toEstimate(turning, run.plan.id, `slope of the wheel angle ${over}`), segment: window.segment },
    );
  }
  const torque = forces?.torque ?? meanReading(run, "wheelTorque", "N.m", window);
  const checks = [...standingChecks(run), ...(speed === null || turning === null ? [] : [...encoderRatio(run, speed, turning, 1), ...carriageSpeedFindings(run, speed, window.segment)])];
  if (load !== null) measures.push({ name: "verticalLoad", label: "Vertical load", estimate: toEstimate(load, run.plan.id, `${forces?.says.load.what ?? "mean"} ${over}${forces?.says.load.then ?? ""}`), segment: window.segment });
  if (pull !== null) measures.push({ name: "drawbarPull", label: "Drawbar pull", estimate: toEstimate(pull, run.plan.id, `${forces?.says.pull.what ?? "mean"} ${over}${forces?.says.pull.then ?? ""}`), segment: window.segment });
  // The hub's own drop only: on a hard floor it is the wheel's deflection, seen by another sensor than the press.
  if (load !== null) measures.push(...runSinkage(run, window, load, { rollingRadii: [], drags: [], deflections: [] }).measures.filter((measure) => measure.name === "hubDrop"));
  if (torque !== null) measures.push({ name: "floorTorque", label: "Wheel torque, drag included", estimate: toEstimate(torque, run.plan.id, `mean ${over}${forces?.says.torque.then ?? ""}`), segment: window.segment });
  return { measures, fits: [], findings: [...findings, ...(forces?.findings ?? []), ...checks, ...doubtFindings(run, ["verticalLoad", "carriagePosition"])], segments: [window.segment], windowChoices: [] };
}
