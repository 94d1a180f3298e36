import { UsageError } from "../core/errors.ts";

/** A pneumatic tyre on soil, consistent SI units. */
export interface TyreOnSoil {
  readonly coneIndexPa: number;
  readonly widthM: number;
  readonly diameterM: number;
  readonly loadN: number;
  /** deflection over section height [1] */
  readonly deflectionRatio: number;
}

/** Traction constants that follow from a mobility number [1]. */
export interface TractionConstants {
  /** C_Tmax, greatest traction coefficient */
  readonly greatestTraction: number;
  /** C_RR, rolling resistance coefficient */
  readonly rollingResistance: number;
  /** k, rate constant of the traction over slip: C_T = C_Tmax (1 − e^(−k s)) */
  readonly rate: number;
}

/**
 * Mobility number of a tyre.
 *
 *   M = (CI · b d / W) · √(δ/h) / (1 + b/(2d))
 *
 * For pneumatic tyres in frictional–cohesive farm soil; rigid rover wheels lie outside the data behind it.
 *
 * @param tyre   cone index [Pa], width b and diameter d [m], load W [N], δ/h [1]
 * @returns      M [1]
 * @throws       UsageError when an input is not above zero
 * @source       G. W. Turnage, WES 1972; form from memory
 * @checked      tests/models/mobilityNumber.test.ts
 */
export function mobilityNumber(tyre: TyreOnSoil): number {
  for (const [name, value] of Object.entries(tyre)) if (!(value > 0)) throw new UsageError(`mobilityNumber: expected ${name} above zero, found ${value}`);
  const { coneIndexPa, widthM, diameterM, loadN, deflectionRatio } = tyre;
  return (((coneIndexPa * widthM * diameterM) / loadN) * Math.sqrt(deflectionRatio)) / (1 + widthM / (2 * diameterM));
}

/** A wheel on sand of known cone gradient, consistent SI units. */
export interface WheelOnSand {
  /** G, slope of the cone index over depth [Pa/m] */
  readonly gradientPaPerM: number;
  readonly widthM: number;
  readonly diameterM: number;
  readonly loadN: number;
  /** deflection over section height of a tyre [1]; left out for a rigid wheel */
  readonly deflectionRatio?: number;
}

/**
 * Mobility number of a wheel on dry sand.
 *
 *   N = G (b d)^(3/2) / W, for tyres times δ/h
 *
 * Orders wheels and loads on one bed, and tells how far the bed's own drift moves them; it does not carry over to another gravity.
 *
 * @param wheel   cone gradient G [Pa/m], width b and diameter d [m], load W [N], δ/h [1]
 * @returns       N [1]
 * @throws        UsageError when an input is not above zero
 * @source        D. R. Freitag, WES 1965; form from memory
 * @checked       tests/models/mobilityNumber.test.ts
 */
export function sandNumber(wheel: WheelOnSand): number {
  for (const [name, value] of Object.entries(wheel)) if (!(value > 0)) throw new UsageError(`sandNumber: expected ${name} above zero, found ${value}`);
  return ((wheel.gradientPaPerM * (wheel.widthM * wheel.diameterM) ** 1.5) / wheel.loadN) * (wheel.deflectionRatio ?? 1);
}

/**
 * Traction constants of a driven tyre in the field from its mobility number.
 *
 *   C_Tmax = 0.796 − 0.92/M      C_RR = 0.049 + 0.287/M      k C_Tmax = 4.838 + 0.061 M
 *
 * @param mobility   M [1]; above 1.16 so that traction is above zero
 * @returns          C_Tmax, C_RR, k [1]
 * @throws           UsageError when M is too low
 * @source           D. Gee-Clough et al., J. Terramechanics 15(2), 1978; coefficients from memory
 * @checked          tests/models/mobilityNumber.test.ts
 */
export function tractionConstants(mobility: number): TractionConstants {
  const greatestTraction = 0.796 - 0.92 / mobility;
  if (!(mobility > 0 && greatestTraction > 0)) throw new UsageError(`tractionConstants: expected a mobility number above 1.16, found ${mobility}`);
  return { greatestTraction, rollingResistance: 0.049 + 0.287 / mobility, rate: (4.838 + 0.061 * mobility) / greatestTraction };
}

/**
 * Slip of the best tractive efficiency, and that efficiency.
 *
 *   η(s) = C_T (1 − s) / (C_T + C_RR),  C_T = C_Tmax (1 − e^(−k s)),  greatest over 0 < s < 1
 *
 * @param constants   C_Tmax, C_RR, k [1], all above zero: η then has one maximum
 * @returns           slip s and efficiency η [1]
 * @throws            UsageError when a constant is not above zero
 * @source            D. Gee-Clough et al., J. Terramechanics 15(2), 1978; from memory
 * @checked           tests/models/mobilityNumber.test.ts
 */
export function bestTyreEfficiency(constants: TractionConstants): { readonly slip: number; readonly efficiency: number } {
  for (const [name, value] of Object.entries(constants)) if (!(value > 0)) throw new UsageError(`bestTyreEfficiency: expected ${name} above zero, found ${value}`);
  const efficiency = (slip: number): number => {
    const traction = constants.greatestTraction * (1 - Math.exp(-constants.rate * slip));
    return (traction * (1 - slip)) / (traction + constants.rollingResistance);
  };
  let low = 0;
  let high = 1;
  // thirds: each step keeps 2/3 of the interval; 60 steps reach 3e-11
  for (let step = 0; step < 60; step++) {
    const third = (high - low) / 3;
    if (efficiency(low + third) < efficiency(high - third)) low += third;
    else high -= third;
  }
  const slip = (low + high) / 2;
  return { slip, efficiency: efficiency(slip) };
}
