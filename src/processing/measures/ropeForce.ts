import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/** A mass hanging on a rope over pulleys, as the rig description states it. */
export interface Rope {
  readonly mass: number;
  readonly massUncertainty: number;
  readonly ratio: number;
  readonly friction: number;
}

/**
 * Force of a rope with a hanging mass on the body it pulls.
 *
 *   F = n m (g + n a)        u_friction = n m g f / √3
 *
 * [N]; n rope forces on the body per rope force on the mass, a the body's acceleration against the rope's pull: the mass then rises with
 * n a. Friction of the pulleys takes or adds up to the share f, either way (rectangular). Rope without mass and stretch.
 *
 * @param rope    mass [kg], its standard uncertainty, n and f
 * @param gravity g [m/s²]
 * @param against a [m/s²]
 * @param name    names mass and friction in budgets; what runs share
 * @returns       F; its doubt is that of mass, friction and acceleration
 * @source        Newton's second law; rectangular distribution, JCGM 100:2008, 4.3.7
 * @checked       tests/processing/measures/ropeForce.test.ts
 */
export function ropeForce(rope: Rope, gravity: number, against: Reading<"m/s2">, name: string): Reading<"N"> {
  const { mass, massUncertainty, ratio, friction } = rope;
  const revolutions = against.perRevolution.map(() => mass);
  const hanging: Reading<"kg"> = { unit: "kg", value: mass, perRevolution: revolutions, rows: [stated(`mass on the rope, ${name}`, massUncertainty)] };
  const share: Reading<"1"> = { unit: "1", value: 1, perRevolution: revolutions.map(() => 1), rows: [stated(`friction of the pulleys, ${name}`, friction / Math.sqrt(3))] };
  return derive([hanging, share, against], (m = Number.NaN, f = Number.NaN, a = Number.NaN) => f * ratio * m * (gravity + ratio * a), "N");
}

/**
 * Load that an off-loading rope leaves on the wheel.
 *
 *   W = M (g + z̈) − F cos θ        F = n m (g − n z̈)
 *
 * [N]. The rope pulls upwards, so the slide's upward acceleration z̈ is one with its pull and slackens it.
 *
 * @param weighed  M, mass that rests on the ground through the wheel while the rope is off [kg]
 * @param rope     F, see {@link ropeForce}, worked out with a = −z̈ [N]
 * @param angle    θ, from the vertical [rad]
 * @param rising   z̈ [m/s²]
 * @param gravity  g [m/s²]
 * @returns        W
 * @source         Newton's second law
 * @checked        tests/processing/measures/ropeForce.test.ts
 */
export function offLoaded(weighed: Reading<"kg">, rope: Reading<"N">, angle: Reading<"rad">, rising: Reading<"m/s2">, gravity: number): Reading<"N"> {
  return derive([weighed, rope, angle, rising], (m = Number.NaN, f = Number.NaN, theta = Number.NaN, a = Number.NaN) => m * (gravity + a) - f * Math.cos(theta), "N");
}

function stated(cause: string, effect: number) {
  return { cause, effect, sharedBy: cause, degreesOfFreedom: Infinity };
}
