import type { Finding } from "../../core/finding.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { judged, percent } from "./judged.ts";
import { beforeStart } from "./standing.ts";

/** The load must not change because the wheel drives or sinks: an arm's torque reaction, a pulley's friction, a rope that slants. */
export function loadShift(run: PreparedRun, runningLoadN: number): Finding[] {
  const before = beforeStart(run);
  if (before === null || !(before.standingLoadN > 0)) return [];
  const change = (runningLoadN - before.standingLoadN) / before.standingLoadN;
  return judged("load-shifts", Math.abs(change), run.rig.tolerances.loadShift, () => `The vertical load ${change < 0 ? "falls" : "rises"} by ${percent(Math.abs(change))} from standing to rolling. Look at the arm's torque reaction, the friction of the off-loading pulleys and the angle of their rope; the measured load is used, not the set one`, { channel: "verticalLoad" });
}
