import { estimateFrom } from "../core/estimate.ts";
import type { Unit } from "../core/units.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { RevolutionWindow } from "./conditioning/window.ts";
import type { Corrected, Forces, Motion } from "./forcesOnWheel.ts";
import { acceleration } from "./measures/acceleration.ts";
import { pullWithInertia, torqueWithInertia } from "./measures/inertialForce.ts";
import { constantReading, toEstimate } from "./measures/reading.ts";
import type { Reading } from "./measures/reading.ts";
import type { PreparedRun } from "./preparedRun.ts";
import { outerDiameter } from "./rolling.ts";

/** An acceleration is beyond doubt from this many of its standard uncertainties on; so is what it does to a force from twice the force's. */
const clear = 3;
const matters = 2;

/** Pull and torque without what gains speed; where nothing states it and it matters, a finding asks for it. */
export function withInertia(run: PreparedRun, window: RevolutionWindow, { speed, turning }: Motion, forces: Forces): Corrected {
  const { wheel, plan } = run;
  const { inertia } = run.rig;
  const gain = acceleration(speed, window.boundariesS, "m/s2", `acceleration of the carriage, ${plan.id}`);
  const spin = acceleration(turning, window.boundariesS, "rad/s2", `angular acceleration of the wheel, ${plan.id}`);
  const nothing: Corrected = { forces, touched: [], says: "inertia taken out", findings: [] };
  if (gain === null || spin === null || wheel === null) return nothing;
  const n = speed.perRevolution.length;
  const stated = <U extends Unit>(value: number, unit: U, uncertainty: number, cause: string): Reading<U> => constantReading(estimateFrom(value, unit, "as stated", [{ cause, effect: uncertainty, sharedBy: cause, degreesOfFreedom: Infinity }]), n);
  const about = inertia?.turning?.[wheel.id];
  const pull = inertia === undefined ? null : pullWithInertia(forces.pull, gain, stated(inertia.mass + wheel.massKg, "kg", inertia.massUncertainty, "mass that gains speed"));
  const torque = about === undefined || forces.torque === null ? null : torqueWithInertia(forces.torque, spin, stated(about, "kg.m2", about * (inertia?.turningUncertainty ?? Number.NaN), `moment of inertia of ${wheel.id}`));
  const where = { fromS: window.segment.fromS, toS: window.segment.toS };
  const findings: Finding[] = [];
  const leastKg = (run.rig.massBelowSensor ?? 0) + wheel.massKg;
  if (pull === null && certain(gain, n) && leastKg * Math.abs(gain.value) > matters * doubtOf(forces.pull, plan.id)) {
    findings.push(finding("inertia-unknown", "look", `While the pull is averaged the carriage gains ${(1000 * gain.value).toFixed(1)} mm/s in each second, so at least ${(leastKg * Math.abs(gain.value)).toFixed(2)} N of inertia stand in it. State inertia in rig.yaml, or average where the speed is steady`, { ...where, channel: "drawbarPull", measured: leastKg * Math.abs(gain.value), limit: matters * doubtOf(forces.pull, plan.id) }));
  }
  // No wheel has more than its mass at its outermost radius.
  const mostNm = wheel.massKg * (outerDiameter(run) / 2) ** 2 * Math.abs(spin.value);
  if (torque === null && forces.torque !== null && certain(spin, n) && mostNm > matters * doubtOf(forces.torque, plan.id)) {
    findings.push(finding("turning-inertia-unknown", "look", `While the torque is averaged the wheel gains ${spin.value.toFixed(3)} rad/s in each second; up to ${mostNm.toFixed(3)} N·m of its inertia may stand in it. State inertia.turning for ${wheel.id} in rig.yaml, or average where the speed is steady`, { ...where, channel: "wheelTorque", measured: mostNm, limit: matters * doubtOf(forces.torque, plan.id) }));
  }
  return { ...nothing, forces: { load: forces.load, pull: pull ?? forces.pull, torque: torque ?? forces.torque }, touched: [...(pull === null ? [] : ["pull" as const]), ...(torque === null ? [] : ["torque" as const])], findings };
}

function certain(rate: Reading, revolutions: number): boolean {
  return revolutions > 2 && Math.abs(rate.value) > clear * Math.hypot(...rate.rows.map((row) => row.effect));
}

/** With fewer than two revolutions nothing is known of it, and nothing can be said to exceed it. */
function doubtOf(reading: Reading, run: string): number {
  return toEstimate(reading, run, "").standardUncertainty ?? Infinity;
}
