import { dice } from "./dice.ts";
import type { BenchLog } from "./benchRuns.ts";
import type { PlannedRun } from "./dayPlan.ts";
import { gravity, massBelowSensorKg } from "./rigTruth.ts";
import type { SensorErrors } from "./rigTruth.ts";
import { mark, putByte, putFixed, putText, reserve, textBytes, written } from "./textBytes.ts";
import { deflection, drag, rollingRadius } from "./wheelTruth.ts";
import type { WheelTruth } from "./wheelTruth.ts";

const rateHz = 200;
const speed = 0.05;
/** lifted, lowered, loaded, standing before the drive; the other way round after it [s] */
const liftedS = 2.5;
const loweringS = 0.9;
const loadingS = 0.6;
const standingS = 1.5;
const approachM = 0.1;
const beyondM = 0.12;
const liftM = 0.03;

/** One instant of the drive: travel of the hub, its height above the floor's level, the wheel's angle, the torque at the axle. */
interface Instant {
  readonly x: number;
  readonly z: number;
  readonly angle: number;
  readonly torque: number;
}

/** Friction at the edge in one trial: the wheel's own, and what dust and the place on the rim make of it. */
function grip(wheel: WheelTruth, random: ReturnType<typeof dice>): number {
  return wheel.edgeFriction * (1 + 0.14 * random.normal());
}

/**
 * The drive, instant by instant: along the floor, about the edge while the hub rides on a circle round it, on along the top.
 * Where the friction at the edge does not hold, the wheel lifts a little, then spins on the spot.
 */
function drive(wheel: WheelTruth, loadN: number, heightM: number, friction: number): { readonly instants: readonly Instant[]; readonly climbed: boolean } {
  const r = rollingRadius(wheel, loadN);
  const resistance = 0.02 * loadN * r + drag(wheel, speed / r);
  const reach = Math.sqrt(2 * r * heightM - heightM ** 2);
  const climbed = heightM < r && reach / (r - heightM) < friction;
  const instants: Instant[] = [];
  let angle = 0;
  let x = 0;
  let z = 0;
  const step = speed / rateHz;
  const go = (nextX: number, nextZ: number, torque: number): void => {
    angle += Math.hypot(nextX - x, nextZ - z) / r;
    [x, z] = [nextX, nextZ];
    instants.push({ x, z, angle, torque });
  };
  while (x < approachM) go(x + step, 0, resistance);
  const edge = approachM + reach;
  // the rim gives way a little before it takes the whole load
  const taken = (place: number): number => Math.min(1, (place - approachM) / 0.004);
  const onEdge = (place: number): number => Math.sqrt(Math.max(0, r ** 2 - (edge - place) ** 2)) - (r - heightM);
  if (!climbed) {
    const stuck = approachM + 0.15 * reach;
    while (x < stuck) go(x + step, onEdge(x + step), resistance + taken(x) * loadN * (edge - x));
    for (let i = 0; i < 2 * rateHz; i++) {
      angle += speed / r / rateHz;
      instants.push({ x, z, angle, torque: resistance + loadN * (edge - x) * (0.97 + 0.03 * Math.cos(i / 9)) });
    }
    return { instants, climbed };
  }
  while (x + step < edge) go(x + step, onEdge(x + step), resistance + taken(x) * loadN * (edge - x));
  while (x < edge + beyondM) go(x + step, heightM, resistance);
  return { instants, climbed };
}

/** A wheel driven against a step, in a log of its own: semicolons, decimal comma. Zero blocks with the wheel lifted, as in every run. */
export function obstacleRun(seed: number, run: PlannedRun, wheel: WheelTruth, errors: SensorErrors): BenchLog & { readonly climbed: boolean } {
  const random = dice(seed, `obstacle ${run.id}`);
  const loadN = run.loadN as number;
  const heightM = run.obstacle?.heightM as number;
  const { instants, climbed } = drive(wheel, loadN, heightM, grip(wheel, dice(seed, `grip ${run.id}`)));
  const hangingN = (wheel.massKg + massBelowSensorKg) * gravity;
  const beginS = liftedS + loweringS + loadingS + standingS;
  const endS = beginS + instants.length / rateHz;
  const lastS = endS + standingS + loadingS + loweringS + liftedS;
  // first the wheel comes down without load, then it stands and the load is let onto it, and gives way under it
  const fromLifted = (t: number): number => Math.min(t, lastS - t) - liftedS;
  const loadAt = (t: number): number => loadN * Math.max(0, Math.min(1, (fromLifted(t) - loweringS) / loadingS));
  const liftAt = (t: number): number => liftM * Math.max(0, Math.min(1, 1 - fromLifted(t) / loweringS)) + deflection(wheel, loadN) - deflection(wheel, loadAt(t));
  const first = { x: 0, z: 0, angle: 0, torque: 0 };
  const text = textBytes(300_000);
  putText(text, `Lane logger (invented data)\r\nRun;${run.id}\r\nTime;Torque;Load;Angle;Travel;Hub;Acc\r\ns;N.m;N;deg;mm;mm;gn\r\n`);
  const bias = { torque: 0.03 * random.normal(), load: 0.3 * random.normal() };
  const count = Math.ceil(lastS * rateHz);
  let before: Instant = first;
  let blow = 0;
  for (let i = 0; i < count; i++) {
    reserve(text, 90);
    const t = i / rateHz;
    // in whole samples: a rounded-off time would show one instant twice and the next one never
    const index = i - Math.round(beginS * rateHz);
    const driving = index >= 0 && index < instants.length;
    const now = index < 0 ? first : (instants[Math.min(index, instants.length - 1)] as Instant);
    // the blow at the edge rings off; on the way it shakes a little
    if (driving && before.z === 0 && now.z > 0) blow = 1;
    blow *= 0.93;
    const shake = driving ? 0.03 * random.normal() + 0.35 * blow * Math.cos(1.3 * i) : 0;
    const numbers: readonly (readonly [value: number, places: 2 | 3 | 4])[] = [
      [t, 3],
      [((driving ? now.torque : 0) * errors.laneTorque + bias.torque) + 0.02 * random.normal(), 3],
      [(loadAt(t) - hangingN) * errors.laneLoad + bias.load + 0.25 * random.normal(), 2],
      [(now.angle * 180) / Math.PI + 0.01 * random.normal(), 2],
      [now.x * 1000 * errors.carriage + 0.05 * random.normal(), 2],
      [(now.z + liftAt(t)) * 1000 * errors.pot + 80 + 0.06 * random.normal(), 2],
      [(shake + 0.004 * random.normal()) * errors.acceleration, 4],
    ];
    numbers.forEach(([value, places], column) => {
      if (column > 0) putByte(text, mark.semicolon);
      putFixed(text, value, places, mark.comma);
    });
    putByte(text, mark.return);
    putByte(text, mark.newline);
    before = now;
  }
  let energyJ = 0;
  for (let i = 1; i < instants.length; i++) energyJ += 0.5 * ((instants[i] as Instant).torque + (instants[i - 1] as Instant).torque) * ((instants[i] as Instant).angle - (instants[i - 1] as Instant).angle);
  const last = instants[instants.length - 1] as Instant;
  return { bytes: written(text), climbed, truth: { climbed: climbed ? 1 : 0, peakTorqueNm: greatestMean(instants.map((instant) => instant.torque), 0.05 * rateHz), driveEnergyJ: energyJ, hubRiseM: last.z } };
}

/** Greatest mean over so many values in a row. */
function greatestMean(values: readonly number[], width: number): number {
  let sum = 0;
  let most = -Infinity;
  values.forEach((value, i) => {
    sum += value - (i < width ? 0 : (values[i - width] as number));
    if (i >= width - 1) most = Math.max(most, sum / width);
  });
  return most;
}
