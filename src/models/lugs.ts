import { UsageError } from "../core/errors.ts";
import { passiveForce } from "./earthPressure.ts";
import type { PushedSoil } from "./earthPressure.ts";

/** Lugs round a wheel. */
export interface Lugs {
  readonly count: number;
  /** h, from the rim to the tips [m] */
  readonly heightM: number;
}

/**
 * Radius of the cylinder that shears the soil: between the lugs soil sticks and turns with the wheel.
 *
 *   r_s = R + κ h
 *
 * κ = 1: the lugs are close enough that soil is sheared along their tips; κ = 0: they are too far apart to hold any.
 *
 * @param rimM     R, radius of the rim [m], > 0
 * @param lugs     h
 * @param share    κ, 0 … 1 [1]
 * @returns        r_s [m]
 * @throws         UsageError when an input is out of its range
 * @source         L. Ding et al., J. Terramechanics 48 (2011), from memory
 * @checked        tests/models/lugs.test.ts
 */
export function shearingRadius(rimM: number, lugs: Lugs, share: number): number {
  if (!(rimM > 0 && lugs.heightM >= 0 && share >= 0 && share <= 1)) throw new UsageError(`shearingRadius: expected a radius above 0 m, lugs of at least 0 m and a share from 0 to 1, found ${rimM}, ${lugs.heightM}, ${share}`);
  return rimM + share * lugs.heightM;
}

/**
 * What lugs add to the shear stress along a wheel where they reach beyond the surface that shears: each pushes a passive
 * wedge of soil as a blade does, and a contact holds as many as stand on it.
 *
 *   Δτ = N F(d)/(2π r_s b),  d = (1 − κ) h,  F/b = ½ γ d² N_φ + 2 c d √N_φ
 *
 * Lugs close together (κ = 1) shear the soil along their tips and push no wedge; lugs far apart (κ = 0) leave the shear to
 * the rim and push with their whole height. It is mobilised as shear is, and acts along r_s: the longer arm of the blades,
 * at most d/2, is left out. The rim's pressure on the wedge is left out too, so that this is the lower end.
 *
 * @param soil     c, φ, γ
 * @param rimM     R, radius of the rim [m], > 0
 * @param lugs     N and h
 * @param share    κ, 0 … 1 [1]
 * @returns        Δτ [Pa], to be added to the cohesion
 * @throws         UsageError when an input is out of its range
 * @source         blade: `passiveForce`; one blade a lug, or shear along the tips where lugs stand close: J. Y. Wong, Theory of Ground Vehicles, from memory; the passage between them by κ is drawbar's
 * @checked        tests/models/lugs.test.ts
 */
export function lugStress(soil: PushedSoil, rimM: number, lugs: Lugs, share: number): number {
  const radiusM = shearingRadius(rimM, lugs, share);
  return (lugs.count * passiveForce(soil, 1, (1 - share) * lugs.heightM)) / (2 * Math.PI * radiusM);
}

/**
 * Widest angle between lugs at which a lug enters the soil before the one ahead has pushed the wheel forward over bare rim.
 *
 *   φ ≤ [√((1 + h/R)² − (1 − z/R)²) − √(1 − (1 − z/R)²)] / (1 − s)
 *
 * @param rimM       R [m], > 0
 * @param lugs       h
 * @param sinkageM   z of the rim [m], 0 ≤ z < R
 * @param slip       s [1], 0 ≤ s < 1
 * @returns          φ [rad]; wider spacing lets the wheel surge
 * @throws           UsageError when an input is out of its range
 * @source           K. Skonieczny et al., J. Field Robotics 29 (2012), from memory
 * @checked          tests/models/lugs.test.ts
 */
export function widestLugSpacing(rimM: number, lugs: Lugs, sinkageM: number, slip: number): number {
  if (!(rimM > 0 && lugs.heightM >= 0 && sinkageM >= 0 && sinkageM < rimM && slip >= 0 && slip < 1)) throw new UsageError(`widestLugSpacing: expected R > 0, h ≥ 0, 0 ≤ z < R and 0 ≤ s < 1, found ${rimM}, ${lugs.heightM}, ${sinkageM}, ${slip}`);
  const under = (1 - sinkageM / rimM) ** 2;
  return (Math.sqrt((1 + lugs.heightM / rimM) ** 2 - under) - Math.sqrt(1 - under)) / (1 - slip);
}
