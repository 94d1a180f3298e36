import { dice } from "./dice.ts";
import type { PlannedRun } from "./dayPlan.ts";
import { bridgeRange, carriageStartMm, decoupling, encoder, gravity, inverse, massBelowSensorKg, pot } from "./rigTruth.ts";
import type { SensorErrors } from "./rigTruth.ts";
import type { RollingRun, RollingSample } from "./rollingRun.ts";
import { mark, putByte, putFixed, putText, putWhole, reserve, textBytes, written } from "./textBytes.ts";
import type { TextBytes } from "./textBytes.ts";
import { usual } from "./unknowns.ts";
import type { Unknowns } from "./unknowns.ts";
import type { WheelTruth } from "./wheelTruth.ts";

/** What is wrong on purpose with one run's logs. */
export interface LogFault {
  /** drift of the pull channel over the run [N] */
  readonly pullDriftN?: number;
  /** a bridge left unbalanced, so that its amplifier ends under load: index and offset [mV/V] */
  readonly unbalanced?: readonly [number, number];
  /** rows lost from – to, seconds into the run */
  readonly gapS?: readonly [number, number];
}

const pulseS = 0.2;
const pulseAtS = 0.5;

/** Whether the shared line is up. A hand closes the switch: at no round time of either logger. */
function pulseLine(seed: number, run: PlannedRun, durationS: number): (timeS: number) => boolean {
  const random = dice(seed, `pulses ${run.id}`);
  const starts = [pulseAtS + 0.1 * random.uniform(), durationS - pulseAtS - pulseS - 0.1 * random.uniform()];
  return (timeS) => starts.some((startS) => timeS >= startS && timeS < startS + pulseS);
}

/** Two digits. */
function two(value: number): string {
  return String(value).padStart(2, "0");
}

/** The frame logger: wall-clock stamps, tabs, decimal comma, Latin-1, a unit row. It is the reference clock. */
export function frameLog(seed: number, run: PlannedRun, wheel: WheelTruth, rolling: RollingRun, errors: SensorErrors, startMs: number, rateHz: number, fault: LogFault, { driftBend }: Unknowns = usual): Uint8Array {
  const random = dice(seed, `frame ${run.id}`);
  const toBridges = inverse(decoupling).map((row) => row.map((cell, output) => cell * (errors.sixAxis[output] as number)));
  const pulse = pulseLine(seed, run, rolling.durationS);
  const balance = dice(seed, "balance");
  const offsets = [0, 1, 2, 3, 4, 5].map((bridge) => 0.0004 * balance.normal() + 0.0001 * random.normal() + (fault.unbalanced?.[0] === bridge ? fault.unbalanced[1] : 0));
  const drift = [(fault.pullDriftN ?? 0) + 0.04 * random.normal(), 0.05 * random.normal(), 0.15 * random.normal(), 0.004 * random.normal(), 0.004 * random.normal(), 0.004 * random.normal()];
  const hanging = (massBelowSensorKg + wheel.massKg) * gravity;
  const count = Math.floor(rolling.durationS * rateHz);
  const text = textBytes(count * 88 + 400);
  putText(text, `Frame logger (invented data)\tBench 2\nRun\t${run.id}\nWheel\t${run.wheel}\nRate\t${rateHz} Hz\nNote\tBr\u00fccken 1\u20136 ohne Filter\n\nTime\tB1\tB2\tB3\tB4\tB5\tB6\tPot\tSync\nUTC\tmV/V\tmV/V\tmV/V\tmV/V\tmV/V\tmV/V\tV\tV\n`.replace("\u2013", "-"), "latin1");
  const sample: RollingSample = { pullN: 0, sideN: 0, loadN: 0, torqueNm: 0, rollMomentNm: 0, yawMomentNm: 0, hubM: 0 };
  const force = [0, 0, 0, 0, 0, 0];
  let second = -1;
  let stamp: Uint8Array = new Uint8Array(0);
  for (let i = 0; i < count; i++) {
    const timeS = i / rateHz;
    if (fault.gapS !== undefined && timeS >= fault.gapS[0] && timeS < fault.gapS[1]) continue;
    reserve(text, 120);
    const nowMs = startMs + Math.round(timeS * 1000);
    const nowSecond = Math.floor(nowMs / 1000);
    if (nowSecond !== second) {
      second = nowSecond;
      stamp = stampOf(nowMs);
    }
    text.data.set(stamp, text.at);
    text.at += stamp.length;
    putWhole(text, nowMs - nowSecond * 1000, 3);
    rolling.at(timeS, sample);
    const late = timeS / rolling.durationS;
    const drifted = (output: number): number => drift[output]! * (late + driftBend[output]! * 4 * late * (1 - late));
    force[0] = -sample.pullN + drifted(0);
    force[1] = sample.sideN + drifted(1);
    force[2] = sample.loadN - hanging + drifted(2);
    force[3] = sample.rollMomentNm + drifted(3);
    force[4] = sample.torqueNm + drifted(4);
    force[5] = sample.yawMomentNm + drifted(5);
    for (let bridge = 0; bridge < 6; bridge++) {
      const row = toBridges[bridge]!;
      let reading = offsets[bridge]! + 0.0004 * random.normal();
      for (let output = 0; output < 6; output++) reading += row[output]! * force[output]!;
      putByte(text, mark.tab);
      putFixed(text, Math.min(bridgeRange, Math.max(-bridgeRange, reading)), 4, mark.comma);
    }
    putByte(text, mark.tab);
    putFixed(text, ((pot.mmAtSurface - sample.hubM * 1000) / pot.gain) * errors.pot + 0.0015 * random.normal(), 3, mark.comma);
    putByte(text, mark.tab);
    putFixed(text, pulse(timeS) ? 4.95 + 0.03 * random.normal() : 0.05 + 0.02 * random.uniform(), 1, mark.comma);
    putByte(text, mark.newline);
  }
  return written(text);
}

/** `dd.MM.yyyy HH:mm:ss,` of an instant in UTC. */
function stampOf(instantMs: number): Uint8Array {
  const when = new Date(instantMs);
  return Buffer.from(`${two(when.getUTCDate())}.${two(when.getUTCMonth() + 1)}.${when.getUTCFullYear()} ${two(when.getUTCHours())}:${two(when.getUTCMinutes())}:${two(when.getUTCSeconds())},`, "latin1");
}

/** How the drive logger's clock runs: own = (true + leadS) · (1 + ratePpm · 1e-6). */
export interface DriveClock {
  readonly leadS: number;
  readonly ratePpm: number;
}

export function driveClock(seed: number, run: PlannedRun): DriveClock {
  const random = dice(seed, `clock ${run.id}`);
  return { leadS: 0.6 + 2.4 * random.uniform(), ratePpm: 30 + 25 * random.normal() };
}

/** The drive logger: elapsed seconds of its own clock, commas, decimal point, CRLF; a 16-bit counter that rolls over. */
export function driveLog(seed: number, run: PlannedRun, rolling: RollingRun, errors: SensorErrors, clock: DriveClock, rateHz: number): Uint8Array {
  const random = dice(seed, `drive ${run.id}`);
  const pulse = pulseLine(seed, run, rolling.durationS);
  const count = Math.floor((rolling.durationS + clock.leadS + 0.4) * rateHz);
  const text: TextBytes = textBytes(count * 36 + 100);
  putText(text, "t [s],Enc [count],X [mm],Trig [V]\r\n");
  const firstCount = Math.floor(random.uniform() * encoder.rollover);
  const perRadian = (encoder.countsPerRevolution * encoder.gear) / (2 * Math.PI);
  for (let i = 0; i < count; i++) {
    reserve(text, 60);
    const ownS = i / rateHz;
    const timeS = ownS / (1 + clock.ratePpm * 1e-6) - clock.leadS;
    putFixed(text, ownS, 3, mark.point);
    putByte(text, mark.comma);
    putWhole(text, (firstCount + Math.floor(rolling.angle(timeS) * perRadian)) % encoder.rollover);
    putByte(text, mark.comma);
    putFixed(text, rolling.travel(timeS) * 1000 * errors.carriage + carriageStartMm + 0.05 * random.normal(), 1, mark.point);
    putByte(text, mark.comma);
    putFixed(text, pulse(timeS) ? 4.9 + 0.02 * random.normal() : 0.04 + 0.02 * random.uniform(), 1, mark.point);
    putByte(text, mark.return);
    putByte(text, mark.newline);
  }
  return written(text);
}
