import type { Finding } from "../core/finding.ts";
import { alongBed } from "./alongBed.ts";
import { withoutTare } from "./attitude.ts";
import type { RevolutionWindow } from "./conditioning/window.ts";
import { withInertia } from "./inertia.ts";
import type { Reading } from "./measures/reading.ts";
import type { PreparedRun } from "./preparedRun.ts";
import { meanReading } from "./rolling.ts";
import { hangingPull, offLoad } from "./ropes.ts";

export interface Motion {
  readonly speed: Reading<"m/s">;
  readonly turning: Reading<"rad/s">;
}

export interface Forces {
  readonly load: Reading<"N">;
  readonly pull: Reading<"N">;
  readonly torque: Reading<"N.m"> | null;
}

export interface ForcesOnWheel extends Forces {
  /** how each came about, in words: what was averaged, and what was done then */
  readonly says: Readonly<Record<keyof Forces, { readonly what: string; readonly then: string }>>;
  /** what the corrections changed in load and pull as recorded [N] */
  readonly shiftN: { readonly load: number; readonly pull: number };
  readonly findings: readonly Finding[];
}

/**
 * Load, pull and torque between wheel and ground over a window: as the sensors read them, or where there is none as ropes and weights
 * set them; then without the weight below a tilted sensor, then without the inertia of what gains speed, then along and square to the
 * bed where its surface was scanned.
 *
 * @returns null when load or pull is neither recorded nor set by a rope
 */
export function forcesOnWheel(run: PreparedRun, window: RevolutionWindow, motion: Motion): ForcesOnWheel | null {
  const read = { load: meanReading(run, "verticalLoad", "N", window), pull: meanReading(run, "drawbarPull", "N", window), torque: meanReading(run, "wheelTorque", "N.m", window) };
  const load = offLoad(run, window, read.load);
  const pull = read.pull ?? hangingPull(run, window, motion.speed);
  if (load.reading === null || pull === null) return null;
  const forces: Forces = { load: load.reading, pull, torque: read.torque };
  const level = withoutTare(run, window, forces, read.load !== null && read.pull !== null);
  const still = withInertia(run, window, motion, level.forces);
  const sloping = alongBed(run, window, still.forces);
  const then = (name: keyof Forces): string => [level, still, sloping].map((step) => (step.touched.includes(name) ? `, ${step.says}` : "")).join("");
  const says = {
    load: { what: load.says, then: then("load") },
    pull: { what: read.pull === null ? "hanging mass" : "mean", then: then("pull") },
    torque: { what: "mean", then: then("torque") },
  };
  const shiftN = { load: sloping.forces.load.value - forces.load.value, pull: sloping.forces.pull.value - forces.pull.value };
  return { ...sloping.forces, says, shiftN, findings: [...load.findings, ...level.findings, ...still.findings, ...sloping.findings] };
}

/** What one correction gives: the forces after it, which of them it touched, and how that is said. */
export interface Corrected {
  readonly forces: Forces;
  readonly touched: readonly (keyof Forces)[];
  readonly says: string;
  readonly findings: readonly Finding[];
}
