/** What a wheel presses on the ground with: a drum. */
export interface Drum {
  /** R, radius of the surface that shears the soil [m]; with lugs, see `lugs.ts` */
  readonly radiusM: number;
  /** b [m] */
  readonly widthM: number;
}

/** Constants of the soil under a wheel of one width. */
export interface WheelSoil {
  /** k in p = k zⁿ at the width of the wheel, k_c/b + k_φ [N/m^(n+2)] */
  readonly stiffness: number;
  /** n₀ [1] */
  readonly exponent: number;
  /** n₁ in n = n₀ + n₁|s| [1]: how the bed gives way as the wheel digs (slip sinkage); 0 = not at all */
  readonly exponentBySlip: number;
  /** c [Pa] */
  readonly cohesionPa: number;
  /** φ [rad] */
  readonly frictionAngleRad: number;
  /** K [m] */
  readonly shearModulusM: number;
  /** c₁ and c₂ in θ_m = (c₁ + c₂ s) θ₁, the angle of the greatest stress [1]; θ_m is held within 0 … θ₁ */
  readonly stressAngle: number;
  readonly stressAngleBySlip: number;
  /** λ, rebound of the soil behind the wheel over its sinkage [1]: θ₂ = −acos(1 − λz/R); 0 = contact ends under the axle */
  readonly rebound: number;
}

/** What the ground does to the wheel. */
export interface WheelForces {
  /** W, upward [N] */
  readonly loadN: number;
  /** DP, forward [N] */
  readonly pullN: number;
  /** T, driving positive [N·m] */
  readonly torqueNm: number;
}

/** A wheel at rest between its load and the ground. */
export interface WheelState extends WheelForces {
  readonly sinkageM: number;
  /** how far the wheel itself is pressed in; 0 = rigid */
  readonly deflectionM: number;
  /** θ₁, where contact begins ahead of the axle [rad] */
  readonly entryRad: number;
}

/** No sinkage carries the load, and why. */
export interface NoEquilibrium {
  readonly reason: string;
}

/** A wheel model: forces on a wheel at a load and a slip, or the reason why there are none; as far in as a state that it is held at, whatever is carried there. */
export type WheelModel = (slip: number, loadN: number, held?: WheelState) => WheelState | NoEquilibrium;
