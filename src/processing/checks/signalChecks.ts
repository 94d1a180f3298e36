import type { Finding } from "../../core/finding.ts";
import type { RevolutionWindow } from "../conditioning/window.ts";
import type { PreparedRun } from "../preparedRun.ts";
import type { TractionReadings } from "../tractionRun.ts";
import { bedSlope } from "./bedSlope.ts";
import { clockLag } from "./clockLag.ts";
import { levelJump } from "./levelJump.ts";
import { linePickup } from "./linePickup.ts";
import { lugSampling } from "./lugSampling.ts";
import { soilCarried } from "./soilCarried.ts";

/** Whether the signals of a traction run are what they seem: sampled, timed, free of pickup and jumps, over a level bed. */
export function signalChecks(run: PreparedRun, window: RevolutionWindow, { load, turning, torque }: TractionReadings): Finding[] {
  return [
    ...lugSampling(run, window, turning.value),
    ...linePickup(run, window, load.value, turning.value),
    ...levelJump(run, window),
    ...(torque === null || Number.isNaN(torque.value) ? [] : clockLag(run, window, turning.value, torque.value)),
    ...bedSlope(run, window),
    ...soilCarried(run),
  ];
}
