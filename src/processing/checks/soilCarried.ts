import type { Finding } from "../../core/finding.ts";
import { driftKey } from "../conditioning/zero.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { judged } from "./judged.ts";

/** A lifted wheel that hangs heavier after the run than before has soil in it: it weighs on the sensor, not on the ground it is counted for. */
export function soilCarried(run: PreparedRun): Finding[] {
  if (run.rig.zero?.state !== "wheelLifted") return [];
  const drift = run.recordings.flatMap((recording) => recording.history.map((step) => step.parameters[driftKey("verticalLoad")])).find((value) => typeof value === "number");
  if (drift === undefined) return [];
  const kg = -drift / run.rig.gravity;
  return judged("soil-carried", kg, run.rig.tolerances.soilCarried, () => `The lifted wheel hangs ${kg.toFixed(2)} kg heavier after the run than before: soil is carried in it, and the vertical load is uncertain by part of that weight. Empty and brush the wheel, weigh what came out, and repeat`, { channel: "verticalLoad" });
}
