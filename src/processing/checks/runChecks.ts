import type { Finding } from "../../core/finding.ts";
import type { Measure } from "../../core/measure.ts";
import type { RevolutionWindow } from "../conditioning/window.ts";
import type { PreparedRun } from "../preparedRun.ts";
import type { References } from "../references.ts";
import type { TractionReadings } from "../tractionRun.ts";
import { crossTalk } from "./crossTalk.ts";
import { encoderRatio } from "./encoderRatio.ts";
import { hangingLoad } from "./hangingLoad.ts";
import { loadShift } from "./loadShift.ts";
import { localHole } from "./localHole.ts";
import { lugOrder } from "./lugOrder.ts";
import { plausibleTraction } from "./plausibleTraction.ts";
import { powerSigns } from "./powerSigns.ts";
import { radiusChoice } from "./radiusChoice.ts";
import { rutDiffers } from "./rutDiffers.ts";
import { signalChecks } from "./signalChecks.ts";
import { carriageSpeedFindings } from "./speeds.ts";
import { tiltAtZero } from "./tiltAtZero.ts";
import { zeroClearance } from "./zeroClearance.ts";

export interface TractionRunCheck {
  readonly run: PreparedRun;
  readonly window: RevolutionWindow;
  readonly readings: TractionReadings;
  readonly measures: readonly Measure[];
  readonly radiusM: number;
  /** driven slip, or minus the skid; NaN when the radius is not known */
  readonly slip: number;
  readonly references: References;
}

/** Whether rig, zero and sensors were as described, as far as the run itself tells. */
export function tractionRunChecks({ run, window, readings, measures, radiusM, slip, references }: TractionRunCheck): Finding[] {
  const { speed, turning, load } = readings;
  const { segment } = window;
  const { setSlip } = run.plan;
  const left = setSlip === null ? null : setSlip >= 0 ? 1 - setSlip : 1 / (1 + setSlip);
  return [
    ...standingChecks(run),
    ...(left === null || left === 0 ? [] : encoderRatio(run, speed, turning, left)),
    ...carriageSpeedFindings(run, speed, segment),
    ...loadShift(run, load.value),
    // With a tare the weight is taken off at the attitude of the run.
    ...(run.rig.tare === undefined ? tiltAtZero(run, segment, load.value) : []),
    ...powerSigns(readings, slip > 0, segment),
    ...radiusChoice(run, radiusM, slip, load.value, references),
    ...plausibleTraction(run, measures),
    ...rutDiffers(run, measures),
    ...lugOrder(run, window),
    ...localHole(run, window, load.value),
    ...signalChecks(run, window, readings),
  ];
}

/** What the run shows before the wheel starts. */
export function standingChecks(run: PreparedRun): Finding[] {
  return [...zeroClearance(run), ...hangingLoad(run), ...crossTalk(run)];
}
