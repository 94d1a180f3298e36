import { estimateFrom } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import { likelyUnit } from "../core/likelyUnit.ts";
import type { Unit } from "../core/units.ts";
import { convert } from "../core/units.ts";
import type { RevolutionWindow } from "./conditioning/window.ts";
import { acceleration } from "./measures/acceleration.ts";
import { constantReading, derive, toEstimate } from "./measures/reading.ts";
import type { Reading } from "./measures/reading.ts";
import { offLoaded, ropeForce } from "./measures/ropeForce.ts";
import type { PreparedRun } from "./preparedRun.ts";
import { slopeReading } from "./rolling.ts";

/** The load: as measured, held against what the counterweight should leave; or what it leaves, where no sensor measures it. */
export function offLoad(run: PreparedRun, window: RevolutionWindow, measured: Reading<"N"> | null): { readonly reading: Reading<"N"> | null; readonly says: string; readonly findings: readonly Finding[] } {
  const described = run.rig.offLoad;
  if (described === undefined) return { reading: measured, says: "mean", findings: [] };
  const { gravity } = run.rig;
  const n = window.boundariesS.length - 1;
  const stated = <U extends Unit>(value: number, unit: U, uncertainty: number, cause: string): Reading<U> => constantReading(estimateFrom(value, unit, "as stated", [{ cause, effect: uncertainty, sharedBy: cause, degreesOfFreedom: Infinity }]), n);
  const hub = slopeReading(run, "hubHeight", "m", "m/s", window);
  const rising = (hub === null ? null : acceleration(hub, window.boundariesS, "m/s2", `vertical acceleration of the hub, ${run.plan.id}`)) ?? still(n);
  const rope = ropeForce(described, gravity, derive([rising], (a = Number.NaN) => -a, "m/s2"), "off-loading");
  const angle = stated(convert(described.ropeAngle, "deg", "rad"), "rad", convert(described.ropeAngleUncertainty, "deg", "rad"), "angle of the off-loading rope");
  const reading = offLoaded(stated(described.weighed, "kg", described.weighedUncertainty, "weighed mass, off-loading"), rope, angle, rising, gravity);
  const says = "weighed mass less the off-loading rope";
  return measured === null ? { reading, says, findings: [] } : { reading: measured, says: "mean", findings: disagreement(run, measured, reading) };
}

/** What a hanging mass sets as pull; null where none is described. */
export function hangingPull(run: PreparedRun, window: RevolutionWindow, speed: Reading<"m/s">): Reading<"N"> | null {
  const described = run.rig.hangingPull;
  if (described === undefined) return null;
  const against = described.pulls === "backwards" ? 1 : -1;
  const gain = acceleration(speed, window.boundariesS, "m/s2", `acceleration of the carriage, ${run.plan.id}`) ?? still(window.boundariesS.length - 1);
  const rope = ropeForce(described, run.rig.gravity, derive([gain], (a = Number.NaN) => against * a, "m/s2"), "hanging pull");
  return derive([rope], (f = Number.NaN) => against * f, "N");
}

function still(revolutions: number): Reading<"m/s2"> {
  return { unit: "m/s2", value: 0, perRevolution: new Array<number>(revolutions).fill(0), rows: [] };
}

/** Beyond both uncertainties the description of the off-loading, or the load sensor, is wrong. */
function disagreement(run: PreparedRun, measured: Reading<"N">, computed: Reading<"N">): Finding[] {
  const [found, expected] = [measured, computed].map((reading) => toEstimate(reading, run.plan.id, "").standardUncertainty);
  if (found === null || found === undefined || expected === null || expected === undefined) return [];
  const off = Math.abs(measured.value - computed.value);
  const limit = Math.max(2 * Math.hypot(found, expected), run.rig.tolerances.loadDeviation.look * Math.abs(computed.value));
  if (off <= limit) return [];
  return [finding("off-load-disagrees", "look", `The load is measured as ${measured.value.toFixed(1)} N where weighed mass and off-loading rope leave ${computed.value.toFixed(1)} N. Look at the masses, the rope's angle and the friction of the pulleys, and at the load sensor; the measured load is used.${likelyUnit(measured.value / computed.value, "force")}`, { channel: "verticalLoad", measured: off, limit })];
}
