import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/**
 * Pull of the wheel on the ground's side of the sensor: what the sensor reads and what gave speed to the mass beyond it.
 *
 *   DP = P + m a
 *
 * [N]. The wheel pulls the carriage forwards with P through the sensor; the ground pushes the wheel with DP; between the two m gains
 * speed with a.
 *
 * @param read  P, pull positive when the wheel pulls the carriage [N]
 * @param a     acceleration along the way, positive forwards [m/s²]
 * @param mass  m, what gains speed between ground and sensor [kg]
 * @returns     DP
 * @source      Newton's second law
 * @checked     tests/processing/measures/inertialForce.test.ts
 */
export function pullWithInertia(read: Reading<"N">, a: Reading<"m/s2">, mass: Reading<"kg">): Reading<"N"> {
  return derive([read, a, mass], (p = Number.NaN, gain = Number.NaN, m = Number.NaN) => p + m * gain, "N");
}

/**
 * Torque that reaches the ground: what the sensor reads less what gave turning speed to what it turns.
 *
 *   T = T_read − I α
 *
 * [N·m]
 *
 * @param read    T_read, positive when the motor drives the wheel forwards [N·m]
 * @param alpha   angular acceleration of the wheel [rad/s²]
 * @param inertia I, moment of inertia about the axle of all that the sensor turns [kg·m²]
 * @returns       T
 * @source        Newton's second law for rotation about a fixed axis
 * @checked       tests/processing/measures/inertialForce.test.ts
 */
export function torqueWithInertia(read: Reading<"N.m">, alpha: Reading<"rad/s2">, inertia: Reading<"kg.m2">): Reading<"N.m"> {
  return derive([read, alpha, inertia], (t = Number.NaN, gain = Number.NaN, i = Number.NaN) => t - i * gain, "N.m");
}
