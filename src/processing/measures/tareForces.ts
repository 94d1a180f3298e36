import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/** What hangs below the sensor, and how it hangs; angles in rad, nose up positive. */
export interface Hanging {
  /** w = m g */
  readonly weight: Reading<"N">;
  /** α in the run */
  readonly tilt: Reading<"rad">;
  /** α₀ that the weight is already counted from: the zero's, or level where the weight was added to a bare sensor's zero */
  readonly zeroTilt: Reading<"rad">;
}

/**
 * Pull and load without the weight of what hangs below the sensor, where run and zero had different attitudes.
 *
 *   P' = P + w (sin α − sin α₀)        L' = L + w (cos α − cos α₀)
 *   level axes: DP = P' cos α − L' sin α        W = P' sin α + L' cos α
 *
 * [N]. A weight drags backwards with w sin α and down with w cos α in the carriage's axes; the zero took off what it was there. Roll is
 * not seen and must be the same in zero and run.
 *
 * @param pull    P, zeroed, along the carriage [N]
 * @param load    L, zeroed, square to it [N]
 * @param hanging w, α, α₀
 * @param axes    carriage: P' and L' themselves; level: turned into the horizontal and the vertical
 * @returns       pull and load
 * @source        static equilibrium; common practice of tool-weight compensation
 * @checked       tests/processing/measures/tareForces.test.ts
 */
export function tareForces(pull: Reading<"N">, load: Reading<"N">, { weight, tilt, zeroTilt }: Hanging, axes: "carriage" | "level"): { readonly pull: Reading<"N">; readonly load: Reading<"N"> } {
  const inputs = [pull, load, weight, tilt, zeroTilt] as const;
  const own = (p: number, l: number, w: number, a: number, a0: number): readonly [number, number] => [p + w * (Math.sin(a) - Math.sin(a0)), l + w * (Math.cos(a) - Math.cos(a0))];
  const turned = (p: number, l: number, w: number, a: number, a0: number): readonly [number, number] => {
    const [along, square] = own(p, l, w, a, a0);
    return [along * Math.cos(a) - square * Math.sin(a), along * Math.sin(a) + square * Math.cos(a)];
  };
  const forces = axes === "level" ? turned : own;
  const of = (which: 0 | 1) => (...values: number[]): number => forces(...(values as [number, number, number, number, number]))[which];
  return { pull: derive(inputs, of(0), "N"), load: derive(inputs, of(1), "N") };
}

/**
 * Torque about the sensor's origin without that of the weight below it.
 *
 *   T' = T + q_x (cos α − c₀) − q_z (sin α − s₀)
 *
 * [N·m]; q = Σ m g (forward, up) of what hangs there. A weight ahead of the origin pulls the nose down, which a torque that drives the
 * wheel forwards reads as negative. c₀ and s₀ are those of the zero's attitude, and 0 where the sensor was zeroed bare.
 *
 * @param torque   T, zeroed [N·m]
 * @param forward  q_x [N·m]
 * @param up       q_z [N·m]
 * @param tilt     α [rad]
 * @param zeroTilt α₀ of a zero with everything hanging [rad]; null = zeroed bare
 * @returns        T'
 * @source         static equilibrium; common practice of tool-weight compensation
 * @checked        tests/processing/measures/tareForces.test.ts
 */
export function tareTorque(torque: Reading<"N.m">, forward: Reading<"N.m">, up: Reading<"N.m">, tilt: Reading<"rad">, zeroTilt: Reading<"rad"> | null): Reading<"N.m"> {
  if (zeroTilt === null) return derive([torque, forward, up, tilt], (t = Number.NaN, x = Number.NaN, z = Number.NaN, a = Number.NaN) => t + x * Math.cos(a) - z * Math.sin(a), "N.m");
  return derive([torque, forward, up, tilt, zeroTilt], (t = Number.NaN, x = Number.NaN, z = Number.NaN, a = Number.NaN, a0 = Number.NaN) => t + x * (Math.cos(a) - Math.cos(a0)) - z * (Math.sin(a) - Math.sin(a0)), "N.m");
}
