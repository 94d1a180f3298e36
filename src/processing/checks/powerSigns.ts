import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { Segment } from "../../core/segment.ts";
import type { TractionReadings } from "../tractionRun.ts";

/**
 * Ground takes power and never gives it: T·ω − DP·v ≥ 0 whether the wheel drives or is braked. Where the axle receives none and
 * the drawbar still gives some, a sign is wrong; the driven case with both positive is the energy balance's.
 */
export function powerSigns(readings: TractionReadings, slips: boolean, window: Segment): Finding[] {
  const { torque, turning, pull, speed, load } = readings;
  if (torque === null || Number.isNaN(torque.value)) return [];
  const powerIn = torque.value * turning.value;
  const powerOut = pull.value * speed.value;
  // Near zero both change sign by their zeros alone: a hundredth of the load at the carriage's speed.
  const small = 0.01 * Math.abs(load.value * speed.value);
  const where = { fromS: window.fromS, toS: window.toS };
  if (powerIn <= 0 && powerOut - powerIn > 2 * small) {
    return [finding("power-from-nothing", "reject", `The rig would get ${(powerOut - powerIn).toFixed(2)} W from the rolling wheel, which cannot be: the ground only takes. Look at the signs of pull, torque and wheel angle in rig.yaml`, { ...where, measured: powerOut - powerIn, limit: 2 * small })];
  }
  if (slips && powerIn < -small) {
    return [finding("torque-sign", "reject", `The wheel turns faster than it rolls, so it is driven, and yet its torque brakes (${torque.value.toFixed(2)} N·m). Look at the signs of torque and wheel angle in rig.yaml`, { ...where, channel: "wheelTorque", measured: powerIn, limit: -small })];
  }
  return [];
}
