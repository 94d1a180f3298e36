import { finding } from "../core/finding.ts";
import type { Measure } from "../core/measure.ts";
import { toEstimate } from "./measures/reading.ts";
import type { PreparedRun, Reduced } from "./preparedRun.ts";
import { doubtFindings, meanReading, rollingWindow, slopeReading } from "./rolling.ts";

/** Drag of bearings, seals and drive with the wheel spinning in the air: torque at a wheel speed. */
export function reduceFreeSpinRun(run: PreparedRun): Reduced {
  const { window, findings } = rollingWindow(run, false);
  if (window === null) return { measures: [], fits: [], findings, segments: [], windowChoices: [] };
  const turning = slopeReading(run, "wheelAngle", "rad", "rad/s", window);
  const torque = meanReading(run, "wheelTorque", "N.m", window);
  if (turning === null || torque === null) {
    return { measures: [], fits: [], findings: [...findings, finding("channel-missing", "reject", "A free-spin run needs wheel angle and wheel torque; one of them is in no log of this run")], segments: [window.segment], windowChoices: [] };
  }
  const over = `over ${window.boundariesS.length - 1} whole revolutions in the air`;
  const measures: Measure[] = [
    { name: "wheelSpeed", label: "Wheel speed", estimate: toEstimate(turning, run.plan.id, `slope of the wheel angle ${over}`), segment: window.segment },
    { name: "freeSpinDrag", label: "Free-spin drag", estimate: toEstimate(torque, run.plan.id, `mean torque ${over}`), segment: window.segment },
  ];
  return { measures, fits: [], findings: [...findings, ...doubtFindings(run, ["wheelTorque"])], segments: [window.segment], windowChoices: [] };
}
