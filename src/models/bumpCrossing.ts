/** A bump of height h and length L [m], crossed along its length; half-sine y = h sin(πx/L), versine y = (h/2)(1 − cos 2πx/L). */
export interface Bump {
  readonly shape: "halfSine" | "versine";
  readonly heightM: number;
  readonly lengthM: number;
}

/** κ h⁻¹ at the crest: curvature of the profile per height [1/m²]. */
const crestCurvature = ({ shape, lengthM }: Bump): number => (shape === "halfSine" ? 1 : 2) * (Math.PI / lengthM) ** 2;

/**
 * Peak vertical acceleration of a wheel's centre that follows a bump.
 *
 *   half-sine: a = h (π v/L)²      versine: a = (h/2)(2π v/L)²     [m/s²]
 *
 * A point follows the profile at constant speed; a wheel whose radius is not small against L follows a flatter one.
 *
 * @param bump       shape, h and L [m]
 * @param speedMps   v [m/s]
 * @returns          a [m/s²]
 * @source           second derivative of the profile, derived
 * @checked          tests/models/obstacles.test.ts
 */
export function bumpAcceleration(bump: Bump, speedMps: number): number {
  return bump.heightM * crestCurvature(bump) * speedMps ** 2;
}

/**
 * Speed from which a point that follows a bump leaves the ground at its crest.
 *
 *   v = √(g/κ):   half-sine (L/π) √(g/h)      versine (L/π) √(g/(2h))     [m/s]
 *
 * Rigid, no spring holding it down.
 *
 * @param bump         shape, h and L [m]
 * @param gravityMps2  g [m/s²]
 * @returns            v [m/s]
 * @source             contact is lost where v² κ > g, derived
 * @checked            tests/models/obstacles.test.ts
 */
export function liftOffSpeed(bump: Bump, gravityMps2: number): number {
  return Math.sqrt(gravityMps2 / (bump.heightM * crestCurvature(bump)));
}

/** Duration, reach and height of a hop. */
export interface Hop {
  readonly durationS: number;
  readonly reachM: number;
  readonly heightM: number;
}

/**
 * A hop from level ground back to the same level, without air.
 *
 *   t = 2 v sin α/g      x = v² sin 2α/g      z = (v sin α)²/(2 g)
 *
 * @param speedMps     v at lift-off [m/s]
 * @param angleRad     α above the level [rad]
 * @param gravityMps2  g [m/s²]
 * @returns            t [s], x [m], z [m]
 * @source             uniform acceleration, derived
 * @checked            tests/models/obstacles.test.ts
 */
export function ballisticHop(speedMps: number, angleRad: number, gravityMps2: number): Hop {
  const up = speedMps * Math.sin(angleRad);
  return { durationS: (2 * up) / gravityMps2, reachM: (speedMps ** 2 * Math.sin(2 * angleRad)) / gravityMps2, heightM: up ** 2 / (2 * gravityMps2) };
}

/**
 * How much a sprung mass exceeds a half-sine pulse of its base, without damping: greatest of during and after the pulse.
 *
 *   r = f T      after: |4 r cos(π r)/(1 − 4 r²)|, π/2 at r = 1/2
 *   during (r > 1/2): 2r/(2r − 1) · max over k of sin(2πk/(2r + 1)), the angles inside the pulse
 *
 * For a bump of length L crossed at speed v, T = L/v. Greatest 1.768 at r = 0.81, so the worst speed is v = f L/0.81.
 *
 * @param ratio   r, natural frequency times duration of the pulse [1], > 0
 * @returns       peak response over peak of the pulse [1]
 * @source        R. W. Clough and J. Penzien, Dynamics of Structures, and C. M. Harris and C. E. Crede, Shock and Vibration Handbook (from memory)
 * @checked       tests/models/obstacles.test.ts
 */
export function halfSineAmplification(ratio: number): number {
  const after = Math.abs(ratio - 0.5) < 1e-9 ? Math.PI / 2 : Math.abs((4 * ratio * Math.cos(Math.PI * ratio)) / (1 - 4 * ratio ** 2));
  if (!(ratio > 0.5)) return after;
  let during = 0;
  for (let k = 1; (2 * k) / (2 * ratio + 1) < 1; k++) during = Math.max(during, Math.sin((2 * Math.PI * k) / (2 * ratio + 1)));
  return Math.max(after, ((2 * ratio) / (2 * ratio - 1)) * during);
}
