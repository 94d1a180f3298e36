import { UsageError } from "../core/errors.ts";

/** A wheel's test or trip: what dry frictional soil lets scale. */
export interface WheelTrip {
  /** [m/s²] */
  readonly gravity: number;
  readonly radiusM: number;
  readonly widthM: number;
  /** mass the wheel carries [kg] */
  readonly massKg: number;
  /** wheel speed [rad/s] */
  readonly turningRadPerS: number;
}

/** Factors by which quantities differ between two trips that the soil cannot tell apart. Slip and force over weight do not change. */
export interface ScaleFactors {
  readonly speed: number;
  readonly power: number;
  readonly force: number;
  readonly torque: number;
  readonly sinkage: number;
  readonly time: number;
}

/**
 * The trip in another gravity, at another size and mass, that dry granular soil answers alike.
 *
 *   g′ = q g      L′ = r L      M′ = s M      D′ = s r⁻² D      ω′ = √(q/r) ω
 *   V′/V = √(q r)   P′/P = q^(3/2) r^(1/2) s   F′/F = q s   T′/T = q s r   z′/z = r   t′/t = √(r/q)
 *
 * Slip and pull over weight stay. Same soil, dry and frictional, wheel of the same shape; cohesion breaks it, unless
 * c/(ρ g L) is the same: with q < 1 and r = 1 cohesion weighs more than the rule allows for, to the safe side for pull.
 * In lunar-gravity flights it foretold pull, sinkage and power within 10 % (C. Daca et al. 2023, abstract).
 *
 * @param trip        the trip that is known
 * @param gravity     q = g′/g, > 0
 * @param length      r = L′/L, > 0
 * @param mass        s = M′/M, > 0
 * @returns           the other trip, and the factors of what is measured
 * @throws            UsageError when a ratio is not above zero
 * @source            J. Slonaker et al., Phys. Rev. E 95, 052901 (2017), abstract seen; exponents from memory, checked by their invariants
 * @checked           tests/models/granularScaling.test.ts
 */
export function granularScaling(trip: WheelTrip, gravity: number, length: number, mass: number): { readonly trip: WheelTrip; readonly factors: ScaleFactors } {
  if (!(gravity > 0 && length > 0 && mass > 0)) throw new UsageError(`granularScaling: expected ratios above 0, found ${gravity}, ${length}, ${mass}`);
  return {
    trip: {
      gravity: trip.gravity * gravity,
      radiusM: trip.radiusM * length,
      widthM: (trip.widthM * mass) / length ** 2,
      massKg: trip.massKg * mass,
      turningRadPerS: trip.turningRadPerS * Math.sqrt(gravity / length),
    },
    factors: {
      speed: Math.sqrt(gravity * length),
      power: gravity ** 1.5 * Math.sqrt(length) * mass,
      force: gravity * mass,
      torque: gravity * mass * length,
      sinkage: length,
      time: Math.sqrt(length / gravity),
    },
  };
}
