import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { timeAt } from "../../core/recording.ts";
import { meanOver } from "../conditioning/slope.ts";
import { firstTouch } from "../conditioning/touch.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { timed } from "../rolling.ts";
import { beforeStart } from "./standing.ts";

/** A zero counts only with the wheel clear of the ground: its hub must have hung above the height of first touch. */
export function zeroClearance(run: PreparedRun): Finding[] {
  const hub = timed(run, "hubHeight", "m");
  const before = beforeStart(run);
  if (hub === null || before === null || run.rig.zero?.state !== "wheelLifted") return [];
  const touch = firstTouch(before.load, hub, before.zeroEndS, before.startS);
  if ("reason" in touch) return [];
  const fromS = timeAt(before.load.time, 0);
  const clearance = meanOver(hub.time, hub.samples, fromS, before.zeroEndS).mean - touch.hubHeightM;
  const limit = run.rig.tolerances.zeroClearance;
  if (!(clearance < limit)) return [];
  return [finding("zero-touching", "reject", `During the zero block the hub hung only ${(1000 * clearance).toFixed(1)} mm above the height at which the load begins to rise: the wheel touched, and the zero holds part of the load. Lift the wheel clear of the ground for the zero, and repeat`, { channel: "verticalLoad", fromS, toS: before.zeroEndS, measured: clearance, limit })];
}
