import { dice } from "./dice.ts";
import type { PlannedRun } from "./dayPlan.ts";
import { dropCarriageKg, gravity } from "./rigTruth.ts";
import type { SensorErrors } from "./rigTruth.ts";
import type { DropUnknowns } from "./unknowns.ts";
import { mark, putByte, putFixed, putText, reserve, textBytes, written } from "./textBytes.ts";
import { deflection, loadAtDeflection } from "./wheelTruth.ts";
import type { WheelTruth } from "./wheelTruth.ts";

const standardGravity = 9.80665;
const restS = 0.25;
// friction of the guide [N] and the speed at which it is fully there [m/s]
const guideN = 0.02;
const guideSpeed = 0.1;
const stepsPerRow = 4;
const ringS = 0.5;

export interface DropTruth {
  readonly impactSpeedMps: number;
  /** speed on leaving the floor over speed at first touch, contact by contact */
  readonly restitution: readonly number[];
  readonly peakAccelerationMps2: number;
  readonly largestDeflectionM: number;
  /** of the ringing at the end, wheel in contact */
  readonly dampingRatio: number;
  readonly naturalFrequencyHz: number;
  readonly massKg: number;
}

/** A wheel in its guide falls on the steel table, bounces and rings out. Integrated in small steps, logged at `rateHz`. */
export function dropRun(seed: number, run: PlannedRun, wheel: WheelTruth, errors: SensorErrors, rateHz: number, knock: boolean, unknowns: DropUnknowns | null = null): { bytes: Uint8Array; truth: DropTruth } {
  const random = dice(seed, `drop ${run.id}`);
  const massKg = wheel.massKg + dropCarriageKg;
  const height = run.dropHeightM as number;
  const standing = deflection(wheel, massKg * gravity);
  const slope = wheel.stiffnessNm + 3 * wheel.hardeningNm3 * standing ** 2;
  const natural = Math.sqrt(slope / massKg);
  const viscous = 2 * wheel.dampingRatio * natural * massKg;
  const loss = wheel.impactLoss * (1 + 0.02 * random.normal());
  const dt = 1 / (rateHz * stepsPerRow);
  // the hand lets go somewhere between two rows
  let held = Math.floor((stepsPerRow + 1) * dice(seed, `release ${run.id}`).uniform());
  const bias = 0.03 * random.normal();
  const usualBias = 0.03 * random.normal();
  const heightBias = unknowns === null ? usualBias : 1000 * unknowns.heightZeroM;
  const text = textBytes(Math.ceil(1.6 * rateHz) * 26);
  putText(text, `Drop logger (invented data)\nRun,${run.id}\nt [s],Acc [gn],Height [mm]\n`);
  let y = height;
  let v = 0;
  let inContact = false;
  // speed at which the floor last stopped pushing while the wheel rose: the wheel leaves before its shape is back
  let released = 0;
  let pushed = false;
  // where the wheel touches next, and by how much that goes down at the top of its flight
  let floor = 0;
  let lower = 0;
  const floorPush = (): number => {
    const bend = Math.max(0, floor - y);
    return bend > 0 ? Math.max(0, loadAtDeflection(wheel, bend) * (1 - loss * v) - viscous * v) : 0;
  };
  const acceleration = (contact: number): number => {
    const guide = -guideN * Math.tanh(v / guideSpeed);
    const bumped = knock && y < 0.52 * height && y > 0.48 * height && arriving.length === 0 ? 100 : 0;
    return (contact + guide + bumped) / massKg - gravity;
  };
  const arriving: number[] = [];
  const leaving: number[] = [];
  let peak = 0;
  let deepest = 0;
  let settledS = Number.POSITIVE_INFINITY;
  for (let i = 0; ; i++) {
    const timeS = i / rateHz;
    if (timeS > settledS || timeS > 4) break;
    reserve(text, 60);
    putFixed(text, timeS, 5, mark.point);
    putByte(text, mark.comma);
    const felt = held > 0 || timeS < restS ? 0 : acceleration(floorPush());
    putFixed(text, (felt / standardGravity) * errors.acceleration + bias + 0.025 * random.normal(), 3, mark.point);
    putByte(text, mark.comma);
    putFixed(text, y * 1000 * errors.dropHeight + heightBias + 0.015 * random.normal(), 2, mark.point);
    putByte(text, mark.newline);
    if (timeS < restS) continue;
    for (let step = 0; step < stepsPerRow; step++) {
      if (held > 0) {
        held--;
        continue;
      }
      const bend = Math.max(0, floor - y);
      const contact = floorPush();
      const a = acceleration(contact);
      if (pushed && contact === 0 && v > 0) {
        released = v;
        lower = (unknowns?.stillIn[leaving.length] ?? 0) * bend;
      }
      pushed = contact > 0;
      v += a * dt;
      y += v * dt;
      if (!inContact && v <= 0 && lower !== 0) {
        floor = Math.min(floor - lower, y);
        lower = 0;
      }
      if (y <= floor && !inContact) {
        inContact = true;
        arriving.push(Math.abs(v));
      } else if (y > floor && inContact) {
        inContact = false;
        leaving.push(released);
      }
      peak = Math.max(peak, a);
      deepest = Math.max(deepest, bend);
    }
    // the last contact is the one it does not leave: after it, log long enough for the ringing
    if (inContact && settledS === Number.POSITIVE_INFINITY && 0.5 * massKg * v * v + 0.5 * slope * (y - floor + standing) ** 2 < 0.5 * slope * standing ** 2) settledS = timeS + Math.min(ringS, 40 / natural + 0.06);
  }
  return { bytes: written(text), truth: { impactSpeedMps: arriving[0] as number, restitution: leaving.map((speed, index) => speed / (arriving[index] as number)), peakAccelerationMps2: peak, largestDeflectionM: deepest, dampingRatio: (viscous + loss * massKg * gravity + guideN / guideSpeed) / (2 * Math.sqrt(slope * massKg)), naturalFrequencyHz: natural / (2 * Math.PI), massKg } };
}
