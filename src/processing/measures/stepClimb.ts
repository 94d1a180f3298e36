/** A rigid wheel of radius r at a rigid step of height h, both [m]. */
export interface WheelAtStep {
  readonly radiusM: number;
  readonly heightM: number;
}

/**
 * Torque that lifts a driven wheel quasi-statically over a sharp rigid step: moments about the edge.
 *
 *   T = W √(2 r h − h²) + D (r − h)     [N·m]
 *
 * D is the horizontal pull that the wheel has to give at the same time (positive holds it back). Rigid wheel and edge, no
 * slip at the edge, slow; the greatest torque, needed as the wheel leaves the lower floor. Holds for 0 ≤ h < r.
 *
 * @param step    r and h [m]
 * @param loadN   W, vertical load at the axle [N]
 * @param pullN   D, horizontal resistance at the axle [N]
 * @returns       T about the axle [N·m]; NaN where h ≥ r
 * @source        statics, derived: moments about the edge
 * @checked       tests/processing/measures/stepClimb.test.ts
 */
export function stepTorque({ radiusM, heightM }: WheelAtStep, loadN: number, pullN: number): number {
  if (!(heightM >= 0 && heightM < radiusM)) return Number.NaN;
  return loadN * Math.sqrt(2 * radiusM * heightM - heightM ** 2) + pullN * (radiusM - heightM);
}

/**
 * Friction that a single driven wheel needs at the edge of a step, with nothing pushing it.
 *
 *   μ = tan α = √(2 r h − h²) / (r − h),   cos α = (r − h)/r     [1]
 *
 * The edge carries the whole load, whose direction lies α off the edge's normal. A wheel pushed by others needs less.
 *
 * @param step   r and h [m]
 * @returns      μ [1]; NaN where h ≥ r
 * @source       statics, derived; as a measure of comparison: Thüer et al., locomotion metrics, 2006 (abstract seen)
 * @checked      tests/processing/measures/stepClimb.test.ts
 */
export function stepFriction({ radiusM, heightM }: WheelAtStep): number {
  return stepTorque({ radiusM, heightM }, 1, 0) / (radiusM - heightM);
}

/**
 * Highest step that a single driven wheel climbs by friction alone, the inverse of `stepFriction`.
 *
 *   h = r (1 − 1/√(1 + μ²))     [m]
 *
 * @param radiusM    r [m]
 * @param friction   μ between wheel and edge [1]
 * @returns          h [m]
 * @source           statics, derived
 * @checked          tests/processing/measures/stepClimb.test.ts
 */
export function stepByFriction(radiusM: number, friction: number): number {
  return radiusM * (1 - 1 / Math.sqrt(1 + friction ** 2));
}
