import type { Finding } from "../../core/finding.ts";
import { likelyUnit } from "../../core/likelyUnit.ts";
import type { Reading } from "../measures/reading.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { outerDiameter } from "../rolling.ts";
import { judged } from "./judged.ts";

/**
 * Carriage speed over rim speed must be what the slip leaves of it. Far from that stands a gear, an edge count or a unit.
 *
 * @param expected   1 on a hard floor; 1 − slip, or 1/(1 − skid), where a slip was set
 */
export function encoderRatio(run: PreparedRun, speed: Reading<"m/s">, turning: Reading<"rad/s">, expected: number): Finding[] {
  const radius = outerDiameter(run) / 2;
  if (radius === 0) return [];
  const ratio = speed.value / (turning.value * radius) / expected;
  const gear = run.rig.encoder?.gear;
  const more = gear === undefined || gear === 1 ? [] : [[gear, "the gear between encoder and wheel left out or counted twice"] as const, [4 * gear, "gear and fourfold edges together"] as const];
  return judged("encoder-ratio", Math.abs(Math.log(Math.abs(ratio))), run.rig.tolerances.encoderRatio, () => `The carriage travels ${Math.abs(ratio).toPrecision(3)} times as far as the wheel's turning and its recorded radius say. Look at countsPerRevolution and gear in rig.yaml, and at the units of angle and position.${likelyUnit(ratio, "turning", more)}`, { channel: "wheelAngle" });
}
