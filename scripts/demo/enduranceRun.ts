import type { BenchLog } from "./benchRuns.ts";
import type { PlannedRun } from "./dayPlan.ts";
import { dice } from "./dice.ts";
import { lifeLine } from "./inspections.ts";
import { gravity, massBelowSensorKg } from "./rigTruth.ts";
import type { SensorErrors } from "./rigTruth.ts";
import { simulant } from "./soilTruth.ts";
import { mark, putByte, putFixed, putText, reserve, textBytes, written } from "./textBytes.ts";
import { rollingOnSoil } from "./wheelOnSoil.ts";
import { drag, rollingRadius } from "./wheelTruth.ts";
import type { WheelTruth } from "./wheelTruth.ts";

const rateHz = 100;
/** Lifted, lowered and standing, before the drive and the other way round after it; a look at the wheel half way [s]. */
const liftedS = 3;
const loweringS = 1;
const standingS = 2;
const drivingS = 1000;
const lookS = 40;
/** Slip and pull change slowly with the path, as the lugs wear. */
const firstSlip = 0.15;
const slipPerM = 2e-5;
const pullPerM = -1e-4;
const lugRippleN = 3;
/** Stones on the way: how far apart at least and on average, how far the rim rides on one [m]; what they add to the load [N]. */
const stones = { apartM: 0.5, furtherM: 1, longM: 0.12, fromN: 30, toN: 90 };

interface Stone {
  readonly atM: number;
  readonly addsN: number;
}

/** A turning table with a bed of soil and stones: the path goes on and on in one direction. A log of its own, with the sensors of the lane. */
export function enduranceRun(seed: number, run: PlannedRun, wheel: WheelTruth, errors: SensorErrors): BenchLog {
  const random = dice(seed, `endurance ${run.id}`);
  const loadN = run.loadN as number;
  const radius = rollingRadius(wheel, loadN);
  const spin = (run.speedMps as number) / radius;
  const ground = rollingOnSoil(wheel, simulant, loadN, firstSlip);
  const hubDrag = drag(wheel, spin);
  const hangingN = (wheel.massKg + massBelowSensorKg) * gravity;
  // dx = r (1 − s₀ − k x) dθ
  const pathAt = (angle: number): number => ((1 - firstSlip) / slipPerM) * (1 - Math.exp(-slipPerM * radius * angle));
  const turned = spin * drivingS;
  const pathM = pathAt(turned);
  const laid = stonesOn(pathM, random);
  const beginS = liftedS + loweringS + standingS;
  const lookAtS = beginS + drivingS / 2;
  const endS = beginS + drivingS + lookS;
  const lastS = endS + standingS + loweringS + liftedS;
  const driven = (t: number): number => Math.max(0, Math.min(t, lookAtS) - beginS) + Math.max(0, Math.min(t, endS) - lookAtS - lookS);
  const onGround = (t: number): number => Math.max(0, Math.min(1, (t - liftedS) / loweringS, (lastS - liftedS - t) / loweringS));
  const bias = { torque: 0.03 * random.normal(), load: 0.3 * random.normal(), pull: 0.2 * random.normal() };
  const count = Math.round(lastS * rateHz);
  const text = textBytes(count * 48);
  putText(text, `Table logger (invented data)\r\nRun;${run.id}\r\nTime;Torque;Load;Pull;Angle;Travel\r\ns;N.m;N;N;deg;mm\r\n`);
  const sums = { count: 0, load: 0, pull: 0, torque: 0 };
  let next = 0;
  for (let i = 0; i < count; i++) {
    const t = i / rateHz;
    const angle = spin * driven(t);
    const x = pathAt(angle);
    const rolls = t >= beginS && t < endS && !(t >= lookAtS && t < lookAtS + lookS);
    while (next < laid.length - 1 && x > (laid[next] as Stone).atM + stones.longM) next++;
    const on = rolls ? riding(laid[next] as Stone, x) : 0;
    const lugs = rolls ? lugRippleN * Math.sin(wheel.lugs * angle) * (1 - on) : 0;
    const force = {
      load: onGround(t) * loadN + lugs + on * (laid[next] as Stone).addsN,
      pull: rolls ? ground.pullN * (1 + pullPerM * x) * (1 - 0.5 * on) + 0.3 * lugs : 0,
      torque: rolls ? ground.torqueNm * (1 + 0.2 * on) + 0.3 * radius * lugs : 0,
    };
    if (rolls) {
      sums.count++;
      for (const name of ["load", "pull", "torque"] as const) sums[name] += force[name];
    }
    reserve(text, 80);
    const numbers: readonly (readonly [value: number, places: 1 | 2 | 3])[] = [
      [t, 2],
      [(force.torque + (rolls ? hubDrag : 0)) * errors.laneTorque + bias.torque + 0.02 * random.normal(), 3],
      [(force.load - hangingN) * errors.laneLoad + bias.load + 0.25 * random.normal(), 2],
      [force.pull * errors.tablePull + bias.pull + 0.2 * random.normal(), 2],
      [(angle * 180) / Math.PI + 0.01 * random.normal(), 2],
      [x * 1000 * errors.carriage + 0.05 * random.normal(), 1],
    ];
    numbers.forEach(([value, places], column) => {
      if (column > 0) putByte(text, mark.semicolon);
      putFixed(text, value, places, mark.comma);
    });
    putByte(text, mark.return);
    putByte(text, mark.newline);
  }
  const mean = (name: "load" | "pull" | "torque"): number => sums[name] / sums.count;
  const turns = turned / (2 * Math.PI);
  return {
    bytes: written(text),
    truth: {
      distanceM: pathM, revolutions: turns, runningS: drivingS, slip: 1 - pathM / (radius * turned), slipChange: slipPerM * pathM, loadN: mean("load"), pullN: mean("pull"), torqueNm: mean("torque"),
      rollingRadiusM: radius, speedMps: pathM / drivingS, angularSpeedRadS: spin, damage: damageOf(laid, loadN, wheel.lugs * turns),
    },
  };
}

function stonesOn(pathM: number, random: ReturnType<typeof dice>): Stone[] {
  const laid: Stone[] = [];
  for (let atM = 1; atM < pathM - 1; atM += stones.apartM - stones.furtherM * Math.log(1 - random.uniform())) laid.push({ atM, addsN: stones.fromN + (stones.toN - stones.fromN) * random.uniform() });
  return laid;
}

/** How much of a stone's height is under the rim: half a sine wave. */
function riding({ atM }: Stone, x: number): number {
  const along = (x - atM) / stones.longM;
  return along <= 0 || along >= 1 ? 0 : Math.sin(Math.PI * along);
}

/**
 * Each stone is one cycle from the lug's valley up and back, but the greatest: it closes the cycle of putting the wheel down
 * and lifting it. Lugs make the rest.
 */
function damageOf(laid: readonly Stone[], loadN: number, lugs: number): number {
  const highest = Math.max(...laid.map((stone) => stone.addsN));
  const ranges = laid.map(({ addsN }) => addsN + (addsN === highest ? loadN : lugRippleN));
  const of = (range: number): number => (range / lifeLine.range) ** lifeLine.exponent / lifeLine.cycles;
  return ranges.reduce((sum, range) => sum + of(range), (lugs - laid.length) * of(2 * lugRippleN));
}
