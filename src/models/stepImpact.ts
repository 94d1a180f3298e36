/** A rigid wheel of radius r at a rigid step of height h, both [m]. */
export interface WheelAtStep {
  readonly radiusM: number;
  readonly heightM: number;
}

/**
 * What a step leaves of a rolling wheel's speed when it strikes the edge, without slip or rebound.
 *
 *   ω₁/ω₀ = (c r² + r (r − h)) / ((1 + c) r²),   c = I/(m r²)     [1]
 *
 * Angular momentum about the edge is kept. c = 1/2 for a disc: 1 − (2/3) h/r; c = 1 for a hoop: 1 − h/(2 r). Of the rolling
 * energy 1 − (ω₁/ω₀)² is lost. A flexible rim that gives way loses less.
 *
 * @param step      r and h [m]
 * @param inertia   c, moment of inertia about the axle over m r² [1]
 * @returns         ω₁/ω₀ [1]; NaN where h ≥ r
 * @source          R. C. Hibbeler, Engineering Mechanics: Dynamics, 14th ed., problem 19-52 (data and method seen)
 * @checked         tests/models/obstacles.test.ts
 */
export function stepSpeedRatio({ radiusM, heightM }: WheelAtStep, inertia: number): number {
  if (!(heightM >= 0 && heightM < radiusM)) return Number.NaN;
  return (inertia + 1 - heightM / radiusM) / (1 + inertia);
}

/**
 * Least speed at which an undriven wheel rolls over a step by its own motion.
 *
 *   v = √(2 g h / (1 + c)) / (ω₁/ω₀)     [m/s]
 *
 * What is left after the blow lifts the wheel by h. Scales with √g: a fifth of g asks for 0.45 of the speed.
 *
 * @param step         r and h [m]
 * @param inertia      c = I/(m r²) [1]
 * @param gravityMps2  g [m/s²]
 * @returns            v [m/s]; NaN where h ≥ r
 * @source             R. C. Hibbeler, Engineering Mechanics: Dynamics, 14th ed., problem 19-52 (data and method seen); the closed form derived
 * @checked            tests/models/obstacles.test.ts
 */
export function stepLeastSpeed(step: WheelAtStep, inertia: number, gravityMps2: number): number {
  return Math.sqrt((2 * gravityMps2 * step.heightM) / (1 + inertia)) / stepSpeedRatio(step, inertia);
}
