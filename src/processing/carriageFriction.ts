import type { Rig } from "../campaign/rigSchema.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Reading } from "./measures/reading.ts";

/**
 * The carriage's own friction in the pull reading, at the run's speed and direction, on a straight line between the speeds
 * at which the carriage was towed empty. A rig without such a map has its pull sensor on the wheel's side: nothing to take off.
 */
export function carriageFriction(rig: Rig, speed: Reading<"m/s">): { readonly reading: Reading<"N"> | null; readonly findings: readonly Finding[] } {
  const map = rig.carriageFriction;
  if (map === undefined || map.length === 0) return { reading: null, findings: [] };
  const sorted = [...map].sort((a, b) => a.speed - b.speed);
  const at = Math.abs(speed.value);
  const valueOf = (point: (typeof sorted)[number]): number => (speed.value >= 0 ? point.forward : point.reverse);
  const first = sorted[0] as (typeof sorted)[number];
  const last = sorted.at(-1) as (typeof sorted)[number];
  const above = sorted.find((point) => point.speed >= at) ?? last;
  const below = sorted.findLast((point) => point.speed <= at) ?? first;
  const share = above.speed > below.speed ? (at - below.speed) / (above.speed - below.speed) : 0;
  const value = valueOf(below) + share * (valueOf(above) - valueOf(below));
  const uncertainty = Math.max(above.uncertainty, below.uncertainty);
  const outside = at < first.speed || at > last.speed;
  const findings = outside ? [finding("friction-outside", "look", `The carriage's friction was measured from ${first.speed} to ${last.speed} m/s, not at ${at.toFixed(3)} m/s; the nearest value is used. Tow the empty carriage at this speed`, { channel: "drawbarPull", measured: at, limit: at < first.speed ? first.speed : last.speed })] : [];
  const rows = [{ cause: "carriage friction map", effect: uncertainty, sharedBy: "carriage friction map", degreesOfFreedom: Infinity }];
  return { reading: { unit: "N", value, perRevolution: speed.perRevolution.map(() => value), rows }, findings };
}
