import type { Finding } from "../../core/finding.ts";
import type { Segment } from "../../core/segment.ts";
import { likelyUnit } from "../../core/likelyUnit.ts";
import type { Reading } from "../measures/reading.ts";
import { spread } from "../measures/reading.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { judged, percent } from "./judged.ts";

/** The carriage runs at the set speed, and evenly: while it gains speed, inertia stands in the pull. */
export function carriageSpeedFindings(run: PreparedRun, speed: Reading<"m/s">, window: Segment): Finding[] {
  const { tolerances } = run.rig;
  const where = { channel: "carriagePosition", fromS: window.fromS, toS: window.toS };
  const set = run.plan.setSpeedMps;
  const off = set === null || set === 0 ? [] : judged("speed-off", Math.abs(Math.abs(speed.value) / set - 1), tolerances.speedDeviation, () => `The carriage travels at ${(1000 * speed.value).toFixed(1)} mm/s where ${(1000 * set).toFixed(1)} mm/s was set. Look at the unit and scale of the position, and at the run sheet.${likelyUnit(speed.value / set, "speed")}`, where);
  const uneven = spread(speed).sd / Math.abs(speed.value);
  return [...off, ...judged("speed-spread", uneven, tolerances.speedSpread, () => `The carriage's speed varies by ${percent(uneven)} between revolutions; while it changes, the inertia of whatever pulls along stands in the pull. Use a longer start, and look at the drive's speed control`, where)];
}
