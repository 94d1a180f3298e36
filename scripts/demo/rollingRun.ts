import type { PlannedRun } from "./dayPlan.ts";
import { dice } from "./dice.ts";
import { levelLane, rutTruth } from "./laneScan.ts";
import type { Lane } from "./laneScan.ts";
import { simulant } from "./soilTruth.ts";
import type { BedTruth } from "./soilTruth.ts";
import { sweptDrive } from "./sweptDrive.ts";
import { usual } from "./unknowns.ts";
import type { Unknowns } from "./unknowns.ts";
import { rollingOnSoil, standingSinkage } from "./wheelOnSoil.ts";
import type { WheelState } from "./wheelOnSoil.ts";
import { deflection, drag, rollingRadius, tipRadius } from "./wheelTruth.ts";
import type { WheelTruth } from "./wheelTruth.ts";

/** Where the wheel hangs, how it moves and what the rails feel of the ground, as functions of true time. */
export interface RollingRun {
  readonly durationS: number;
  /** the ground's forces on the wheel along and square to the rails, and the hub's height above first touch, written into `out` */
  at(timeS: number, out: RollingSample): void;
  /** wheel angle [rad] and travel [m] */
  angle(timeS: number): number;
  travel(timeS: number): number;
  readonly truth: Readonly<Record<string, number | null>>;
  readonly phases: Readonly<Record<string, number>>;
}

export interface RollingSample {
  pullN: number;
  sideN: number;
  loadN: number;
  torqueNm: number;
  rollMomentNm: number;
  yawMomentNm: number;
  hubM: number;
}

const liftedM = 0.006;
const zeroS = 2.05;
const lowerS = 0.5;
const loadingS = 0.65;
const restS = 1.05;
const rampS = 0.25;
const stopS = 0.2;
const liftS = 0.45;
const settleM = 0.04;

/** Travel long enough for four revolutions beside start and end. */
function travelFor(radius: number, speedRatio: number): number {
  return 4.08 * 2 * Math.PI * radius * speedRatio + 2 * 0.215 + 0.07;
}

export function rollingRun(seed: number, run: PlannedRun, wheel: WheelTruth, bed: BedTruth | null, unknowns: Unknowns = usual, lane: Lane = levelLane): RollingRun {
  return run.kind === "freeSpin" ? spinning(seed, run, wheel) : onGround(seed, run, wheel, bed, unknowns, lane);
}

/** How the wheel is driven: its way from `startS` on, and what the ground does to it there. */
interface Drive {
  readonly spin: number;
  readonly endS: number;
  angle(timeS: number): number;
  travel(timeS: number): number;
  ground(timeS: number): WheelState;
  readonly truth: Readonly<Record<string, number | null>>;
}

function onGround(seed: number, run: PlannedRun, wheel: WheelTruth, bed: BedTruth | null, { touchPower, ripple: speedRipple }: Unknowns, lane: Lane): RollingRun {
  const random = dice(seed, `roll ${run.id}`);
  const loadN = (run.loadN as number) * (1 + 0.008 * random.normal());
  const speed = (run.speedMps as number) * (1 + 0.001 * random.normal());
  const radius = rollingRadius(wheel, loadN);
  // the controller's radius is a little off, so the slip is not quite the set slip; on the floor nothing slips
  const ratioError = bed === null ? 0 : 0.004 * random.normal();
  const standing = bed === null ? 0 : standingSinkage(wheel, bed.soil, loadN);
  const bend = deflection(wheel, loadN);
  // a wheel standing on this soil sinks as the load to the power 2 / (2n + 1)
  const sinkPower = 1 / (touchPower ?? simulant.n + 0.5);
  const touchS = zeroS + lowerS;
  const startS = touchS + loadingS + restS;
  const drive = (run.kind === "sweep" ? swept : steady)({ run, wheel, bed, loadN, speed, radius, ratioError, startS });
  const { endS, spin, travel } = drive;
  const liftFromS = endS + stopS;
  const durationS = liftFromS + liftS + zeroS;
  const phases = { touchS, startS, endS, liftFromS };
  const waves = { lug: random.uniform() * 7, turn: random.uniform() * 7, load: random.uniform() * 7 };
  const lugPull = bed === null ? 0.002 : 0.012;
  const turnPull = bed === null ? 0.002 : 0.01;
  const side = 0.006 * random.normal();
  const hubDrag = drag(wheel, spin);
  const lastM = drive.ground(endS).sinkageM;
  // a slow error of the drive's speed control, nothing at the ends
  const angle = (timeS: number): number => drive.angle(timeS) + 0.0015 * Math.sin(speedRipple.rateRadS * (timeS - startS) + speedRipple.phaseRad) * Number(timeS > startS && timeS < endS);
  const at = (timeS: number, out: RollingSample): void => {
    const ground = drive.ground(timeS);
    let weight: number;
    let hub: number;
    let moving = 0;
    let ripple = 0;
    if (timeS < touchS) {
      weight = 0;
      hub = liftedM * Math.min(1, (touchS - timeS) / lowerS);
    } else if (timeS < liftFromS) {
      const loaded = Math.min(1, (timeS - touchS) / loadingS);
      weight = loadN * loaded ** 1.5;
      moving = 1 - Math.exp(-travel(timeS) / settleM);
      const theta = angle(timeS);
      const turning = Math.sin(theta + waves.turn);
      ripple = moving * (lugPull * Math.sin(wheel.lugs * theta + waves.lug) + turnPull * turning);
      const carried = moving * (0.008 * turning + 0.006 * Math.sin(2.1 * timeS + waves.load));
      weight *= 1 + carried;
      const sink = (standing + (ground.sinkageM - standing) * moving) * loaded ** (1.5 * sinkPower);
      hub = -(sink + (loaded < 1 ? deflection(wheel, weight) : bend)) + moving * 0.00015 * turning;
    } else {
      const lifting = Math.min(1, (timeS - liftFromS) / liftS);
      weight = loadN * Math.max(0, 1 - 4 * lifting);
      hub = liftedM * smooth(lifting) - (lastM + bend) * (1 - smooth(lifting));
    }
    const x = travel(timeS);
    hub += lane.height(x) - lane.height(0);
    const stopped = timeS > endS ? Math.exp(-(timeS - endS) / 0.15) : 1;
    const pull = weight * ((ground.pullN / loadN) * moving * stopped + ripple);
    // the ground pushes along and square to the lane; the sensor hangs on level rails
    const uphill = Math.atan(lane.slopeAt(x));
    out.loadN = weight * Math.cos(uphill) + pull * Math.sin(uphill);
    out.pullN = pull * Math.cos(uphill) - weight * Math.sin(uphill);
    out.torqueNm = (weight / loadN) * ground.torqueNm * moving * stopped + weight * radius * ripple * 0.9 + hubDrag * rampOf(timeS, startS, endS);
    out.sideN = weight * side;
    out.rollMomentNm = weight * side * 0.1;
    out.yawMomentNm = 0.002 * weight;
    out.hubM = hub;
  };
  const truth = {
    ...drive.truth, angularSpeedRadS: spin, rollingRadiusM: radius, freeSpinTorqueNm: hubDrag, standingSinkageM: standing, deflectionM: bend, travelM: travel(endS), tipRadiusM: tipRadius(wheel),
    ...(lane === levelLane ? {} : { bedSlopeRad: Math.atan(lane.slope), rutDepthM: rutTruth(wheel, drive.truth["sinkageM"] as number) }),
  };
  return { durationS, at, angle, travel, truth, phases };
}

interface Driven {
  readonly run: PlannedRun;
  readonly wheel: WheelTruth;
  readonly bed: BedTruth | null;
  readonly loadN: number;
  readonly speed: number;
  readonly radius: number;
  readonly ratioError: number;
  readonly startS: number;
}

/** One slip all the way. */
function steady({ run, wheel, bed, loadN, speed, radius, ratioError, startS }: Driven): Drive {
  const setRatio = run.slip === null ? 1 : run.slip >= 0 ? 1 - run.slip : 1 / (1 + run.slip);
  const speedRatio = bed === null ? 1 : setRatio * (1 + ratioError);
  const slip = speedRatio <= 1 ? 1 - speedRatio : 1 / speedRatio - 1;
  const ground = bed === null ? { sinkageM: 0, pullN: 0, torqueNm: radius * wheel.rollingLoss * loadN, loadN } : rollingOnSoil(wheel, bed.soil, loadN, slip);
  const path = travelFor(radius, speedRatio);
  const endS = startS + path / speed + rampS;
  const travel = (timeS: number): number => path * share(timeS, startS, endS);
  const truth = {
    loadN: ground.loadN, slip: bed === null || slip < 0 ? null : slip, skid: bed === null || slip > 0 ? null : -slip, speedMps: speed,
    pullN: ground.pullN, torqueNm: ground.torqueNm, sinkageM: ground.sinkageM, hubDropM: ground.sinkageM + deflection(wheel, loadN),
  };
  return { spin: speed / (speedRatio * radius), endS, travel, angle: (timeS) => travel(timeS) / (speedRatio * radius), ground: () => ground, truth };
}

/** The slip goes up and down again; the speed on the sheet is the rim's. */
function swept({ wheel, bed, loadN, speed, radius, ratioError, startS }: Driven): Drive {
  const soil = (bed as BedTruth).soil;
  const { turnedRad, travel, ground, lagRad, slipPerRad, hysteresis } = sweptDrive(wheel, soil, loadN, radius, ratioError);
  const spin = speed / radius;
  const endS = startS + turnedRad / spin + rampS;
  const angle = (timeS: number): number => turnedRad * share(timeS, startS, endS);
  const at20 = rollingOnSoil(wheel, soil, loadN, 0.2);
  const truth = { loadN, lagS: lagRad / spin, hysteresis, slipRatePerS: slipPerRad * spin, pullCoefficientAt20: at20.pullN / at20.loadN, sinkageM: rollingOnSoil(wheel, soil, loadN, 0.3).sinkageM };
  return { spin, endS, angle, travel: (timeS) => travel(angle(timeS)), ground: (timeS) => ground(angle(timeS)), truth };
}

/** The wheel turns in the air. */
function spinning(seed: number, run: PlannedRun, wheel: WheelTruth): RollingRun {
  const random = dice(seed, `roll ${run.id}`);
  const spin = ((run.speedMps as number) / tipRadius(wheel)) * (1 + 0.002 * random.normal());
  const startS = zeroS;
  const endS = startS + (4.6 * 2 * Math.PI) / spin;
  const durationS = endS + zeroS + 0.3;
  const turn = random.uniform() * 7;
  const turns = spin * (endS - startS - rampS);
  const angle = (timeS: number): number => turns * share(timeS, startS, endS);
  const hubDrag = drag(wheel, spin);
  const at = (timeS: number, out: RollingSample): void => {
    const ramp = rampOf(timeS, startS, endS);
    out.loadN = ramp * 0.05 * Math.sin(angle(timeS) + turn);
    out.pullN = ramp * 0.04 * Math.cos(angle(timeS) + turn);
    out.torqueNm = hubDrag * ramp * (1 + 0.06 * Math.sin(angle(timeS) + turn));
    out.sideN = 0;
    out.rollMomentNm = 0;
    out.yawMomentNm = 0;
    out.hubM = liftedM;
  };
  return { durationS, at, angle, travel: () => 0, truth: { angularSpeedRadS: spin, freeSpinTorqueNm: hubDrag }, phases: { startS, endS } };
}

function smooth(share: number): number {
  const s = Math.min(1, Math.max(0, share));
  return s * s * (3 - 2 * s);
}

/** Speed over steady speed: a straight ramp up and down. */
function rampOf(timeS: number, startS: number, endS: number): number {
  return Math.max(0, Math.min(1, (timeS - startS) / rampS, (endS - timeS) / rampS));
}

/** Share of the whole way done at a time, for that ramp. */
function share(timeS: number, startS: number, endS: number): number {
  const t = Math.min(Math.max(timeS, startS), endS) - startS;
  const total = endS - startS;
  const steady = total - rampS;
  if (t < rampS) return (t * t) / (2 * rampS) / steady;
  if (t > total - rampS) return 1 - (total - t) ** 2 / (2 * rampS) / steady;
  return (t - rampS / 2) / steady;
}
