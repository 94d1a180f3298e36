import { UsageError } from "../core/errors.ts";

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
