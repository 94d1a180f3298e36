import type { WheelRecord } from "../campaign/campaign.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import { combine, estimateFrom, undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import { sampleCount, timeAt } from "../core/recording.ts";
import { convert } from "../core/units.ts";
import { meanOver } from "./conditioning/slope.ts";
import type { RevolutionWindow } from "./conditioning/window.ts";
import type { Corrected, Forces } from "./forcesOnWheel.ts";
import { constantReading } from "./measures/reading.ts";
import type { Reading } from "./measures/reading.ts";
import { staticTare } from "./measures/staticTare.ts";
import { tareForces, tareTorque } from "./measures/tareForces.ts";
import { find } from "./preparedRun.ts";
import type { PreparedRun } from "./preparedRun.ts";
import { doubtRows, meanReading } from "./rolling.ts";

type Tare = NonNullable<Rig["tare"]>;

/** What hangs below the sensor: weight, and its moments about the sensor's origin. */
interface Hanging {
  readonly weight: Estimate<"N">;
  readonly forward: Estimate<"N.m">;
  readonly up: Estimate<"N.m">;
}

const radians = (degrees: number): number => convert(degrees, "deg", "rad");

/** Forces without the weight below the sensor where the run's attitude is not the zero's; as they are where rig.yaml describes no tare. */
export function withoutTare(run: PreparedRun, window: RevolutionWindow, forces: Forces, measured: boolean): Corrected {
  const { rig, wheel } = run;
  const { tare } = rig;
  const untouched = (findings: readonly Finding[]): Corrected => ({ forces, touched: [], says: "", findings });
  if (tare === undefined) return untouched([]);
  if (!measured) return untouched([finding("tare-unapplied", "note", "The tare is for a sensor of pull and load; this run does not record both, so no weight was taken off")]);
  const tilts = tiltsOf(run, window, tare);
  if (typeof tilts === "string" || wheel === null) return untouched([finding("tare-unknown", "look", `The weight below the sensor could not be taken off: ${typeof tilts === "string" ? tilts : "the run names no wheel that wheels.csv knows"}. Pull and load hold what the change of attitude left of it`, { channel: "drawbarPull" })]);
  const hanging = hangingOf(rig, tare, wheel);
  const n = forces.load.perRevolution.length;
  const weight = constantReading(hanging.weight, n);
  // A sensor zeroed bare has had the level weight added by the zero; nothing of pull or torque was in it.
  const bare = rig.zero?.state === "sensorBare";
  const level: Reading<"rad"> = { unit: "rad", value: 0, perRevolution: new Array<number>(n).fill(0), rows: [] };
  const corrected = tareForces(forces.pull, forces.load, { weight, tilt: tilts.run, zeroTilt: bare ? level : tilts.zero }, tare.axes);
  const findings = massFindings(rig, tare, wheel, hanging.weight);
  const senses = forces.torque !== null && rig.sixAxis?.gives.wheelTorque !== undefined;
  const says = tare.axes === "level" ? "weight below the sensor at its tilt taken off, turned level" : "weight below the sensor at its tilt taken off";
  if (forces.torque === null || !senses) return { forces: { ...corrected, torque: forces.torque }, touched: ["load", "pull"], says, findings };
  if (hanging.forward.standardUncertainty === null) return { forces: { ...corrected, torque: forces.torque }, touched: ["load", "pull"], says, findings: [...findings, finding("tare-torque-unknown", "note", `The torque holds what the weight below the sensor turns at the run's tilt: ${hanging.forward.method}`, { channel: "wheelTorque" })] };
  const torque = tareTorque(forces.torque, constantReading(hanging.forward, n), constantReading(hanging.up, n), tilts.run, bare ? null : tilts.zero);
  return { forces: { ...corrected, torque }, touched: ["load", "pull", "torque"], says, findings };
}

function hangingOf(rig: Rig, tare: Tare, wheel: WheelRecord): Hanging {
  const { gravity } = rig;
  const axle = tare.axle ?? { forward: Number.NaN, up: Number.NaN };
  if (tare.readings !== undefined) {
    const { at, wheelMass, forceUncertainty, torqueUncertainty } = tare.readings;
    const fit = staticTare(at.map((reading) => ({ tiltRad: radians(reading.tilt), pullN: reading.drawbarPull, loadN: reading.verticalLoad, torqueNm: reading.wheelTorque ?? null })), forceUncertainty, torqueUncertainty ?? null);
    const other = (wheel.massKg - wheelMass) * gravity;
    return {
      weight: combine([fit.weight], (w = Number.NaN) => w + other, "N", fit.weight.method),
      forward: combine([fit.forward], (q = Number.NaN) => q + other * axle.forward, "N.m", fit.forward.method),
      up: combine([fit.up], (q = Number.NaN) => q + other * axle.up, "N.m", fit.up.method),
    };
  }
  const below = (rig.massBelowSensor ?? Number.NaN) * gravity;
  const own = wheel.massKg * gravity;
  const { massUncertainty, centreOfMass, centreUncertainty } = tare.stated ?? { massUncertainty: Number.NaN };
  const weight = estimateFrom(below + own, "N", "massBelowSensor and the wheel's mass", [{ cause: "tare mass", effect: massUncertainty * gravity, sharedBy: "tare mass", degreesOfFreedom: Infinity }]);
  if (centreOfMass === undefined || centreUncertainty === undefined) {
    const reason = "rig.yaml states no centre of mass for it";
    return { weight, forward: undetermined("N.m", reason), up: undetermined("N.m", reason) };
  }
  const moment = (side: "forward" | "up"): Estimate<"N.m"> => estimateFrom(below * centreOfMass[side] + own * axle[side], "N.m", "centre of mass as stated", [{ cause: `tare centre of mass, ${side}`, effect: below * centreUncertainty, sharedBy: "tare centre of mass", degreesOfFreedom: Infinity }]);
  return { weight, forward: moment("forward"), up: moment("up") };
}

/** Tilt in the run and at the zero, which is interpolated between its two blocks as the zero itself is. */
function tiltsOf(run: PreparedRun, window: RevolutionWindow, tare: Tare): { readonly run: Reading<"rad">; readonly zero: Reading<"rad"> } | string {
  const n = window.boundariesS.length - 1;
  if (tare.attitude !== undefined) {
    const { zero, run: inRun, uncertainty } = tare.attitude;
    const stated = (degrees: number, when: string): Reading<"rad"> => constantReading(estimateFrom(radians(degrees), "rad", "as stated", [{ cause: `stated tilt ${when}`, effect: radians(uncertainty), sharedBy: `stated tilt ${when}`, degreesOfFreedom: Infinity }]), n);
    return { run: stated(inRun, "in the run"), zero: stated(zero, "at the zero") };
  }
  const inRun = meanReading(run, "tilt", "rad", window);
  const found = find(run, "tilt", "rad");
  const force = find(run, "verticalLoad", "N");
  const { zero } = run.rig;
  if (inRun === null || found === null || force === null || zero === undefined) return "no logger of this run records the tilt";
  const first = timeAt(force.time, 0);
  const last = timeAt(force.time, sampleCount(force.time) - 1);
  const at = (fromS: number, toS: number): number => meanOver(found.time, found.channel.samples, fromS, toS).mean;
  const [before, after] = [at(first, first + zero.beforeS), at(last - zero.afterS, last)];
  const [beforeS, afterS] = [first + zero.beforeS / 2, last - zero.afterS / 2];
  const share = ((window.segment.fromS + window.segment.toS) / 2 - beforeS) / (afterS - beforeS);
  const value = before + share * (after - before);
  if (!Number.isFinite(value) || !Number.isFinite(inRun.value)) return "the tilt is missing during a zero block or the window";
  // The same causes as in the run: the inclinometer's offset cancels where only the change of tilt counts.
  return { run: inRun, zero: { unit: "rad", value, perRevolution: new Array<number>(n).fill(value), rows: doubtRows(found.channel, value, run.plan.id, true) } };
}

/** What the sensor weighs at its static attitudes against what the scale said. */
function massFindings(rig: Rig, tare: Tare, wheel: WheelRecord, weight: Estimate<"N">): Finding[] {
  if (tare.readings === undefined || rig.massBelowSensor === undefined || weight.standardUncertainty === null) return [];
  const stated = (rig.massBelowSensor + wheel.massKg) * rig.gravity;
  const off = Math.abs(weight.value - stated);
  const limit = 3 * weight.standardUncertainty;
  if (off <= limit) return [];
  return [finding("tare-mass-differs", "look", `By the static readings ${weight.value.toFixed(2)} N hang below the sensor with this wheel, by massBelowSensor and wheels.csv ${stated.toFixed(2)} N. Weigh it again, or read the sensor again at its attitudes; the readings are used`, { channel: "verticalLoad", measured: off, limit })];
}
