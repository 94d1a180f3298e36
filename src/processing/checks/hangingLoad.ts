import type { Finding } from "../../core/finding.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { judged } from "./judged.ts";
import { beforeStart } from "./standing.ts";

/**
 * Before it touches, the hanging wheel presses on nothing: the load must be zero there, whatever the state it was zeroed in.
 * Finds a mass below the sensor that was forgotten, counted twice or is another wheel's.
 */
export function hangingLoad(run: PreparedRun): Finding[] {
  const before = beforeStart(run);
  if (before === null || !(before.standingLoadN > 0)) return [];
  const { hangingLoadN, standingLoadN, zeroEndS, startS } = before;
  const share = Math.abs(hangingLoadN) / standingLoadN;
  const kg = Math.abs(hangingLoadN) / run.rig.gravity;
  return judged("hanging-load", share, run.rig.tolerances.hangingLoad, () => `The wheel, hanging free before it touches, seems to press with ${hangingLoadN.toFixed(1)} N (${kg.toFixed(2)} kg). Look at massBelowSensor in rig.yaml, at the wheel's mass in wheels.csv, and at the state the zero was taken in`, { channel: "verticalLoad", fromS: zeroEndS, toS: startS });
}
