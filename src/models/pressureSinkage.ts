import { UsageError } from "../core/errors.ts";

/** Bekker's constants; the power of metre in the units of both moduli follows n, so they never change soil or n alone. */
export interface BekkerSoil {
  /** n, sinkage exponent [1] */
  readonly exponent: number;
  /** k_c, cohesive modulus [N/m^(n+1)]; may be negative */
  readonly cohesive: number;
  /** k_φ, frictional modulus [N/m^(n+2)] */
  readonly frictional: number;
}

/**
 * Pressure under a plate at a sinkage.
 *
 *   p = (k_c/b + k_φ) zⁿ
 *
 * b is the smaller side of a rectangle; for a circle it is the radius in the older usage, and which was used must
 * stand beside the constants, because k_c differs twofold. Holds for slow, vertical, virgin loading of deep even soil.
 *
 * @param sinkageM   z [m], ≥ 0
 * @param widthM     b [m], > 0
 * @param soil       n, k_c, k_φ
 * @returns          p [Pa]
 * @throws           UsageError when the sinkage is below zero or the width is not above zero
 * @source           M. G. Bekker, Introduction to Terrain-Vehicle Systems, 1969
 * @checked          tests/models/pressureSinkage.test.ts
 */
export function bekkerPressure(sinkageM: number, widthM: number, soil: BekkerSoil): number {
  if (!(sinkageM >= 0)) throw new UsageError(`bekkerPressure: expected a sinkage of at least 0 m, found ${sinkageM}`);
  if (!(widthM > 0)) throw new UsageError(`bekkerPressure: expected a width above 0 m, found ${widthM}`);
  return (soil.cohesive / widthM + soil.frictional) * sinkageM ** soil.exponent;
}

/**
 * Pressure under a plate from the pressure at a reference sinkage: the same power law with constants that the data
 * determine well (p_ref and n are nearly uncorrelated when z_ref lies amid the sinkages; k and n are not).
 *
 *   p = p_ref (z / z_ref)ⁿ
 *
 * @param sinkageM            z [m], ≥ 0
 * @param referencePa         p_ref [Pa]
 * @param referenceSinkageM   z_ref [m], > 0
 * @param exponent            n [1]
 * @returns                   p [Pa]
 * @throws                    UsageError when the sinkage is below zero or the reference sinkage is not above zero
 * @source                    algebra of the power law
 * @checked                   tests/models/pressureSinkage.test.ts
 */
export function referencePressure(sinkageM: number, referencePa: number, referenceSinkageM: number, exponent: number): number {
  if (!(sinkageM >= 0)) throw new UsageError(`referencePressure: expected a sinkage of at least 0 m, found ${sinkageM}`);
  if (!(referenceSinkageM > 0)) throw new UsageError(`referencePressure: expected a reference sinkage above 0 m, found ${referenceSinkageM}`);
  return referencePa * (sinkageM / referenceSinkageM) ** exponent;
}

/** Constants without length in their units' powers: they carry over between widths and are compared between soils. */
export interface ReeceSoil {
  readonly exponent: number;
  /** c k_c′, cohesive share [Pa] */
  readonly cohesivePa: number;
  /** γ_s k_φ′, frictional share by width [Pa/m] */
  readonly frictionalPaPerM: number;
}

/**
 * Pressure under a plate, sinkage counted in widths.
 *
 *   p = (k₁ + k₂ b)(z/b)ⁿ        k₁ = c k_c′, k₂ = γ_s k_φ′
 *
 * @param sinkageM   z [m], ≥ 0
 * @param widthM     b [m], > 0
 * @param soil       n, k₁, k₂
 * @returns          p [Pa]
 * @throws           UsageError when the sinkage is below zero or the width is not above zero
 * @source           A. R. Reece, Proc. Inst. Mech. Eng. 180, 1965; J. Y. Wong and A. R. Reece, J. Terramechanics 4(1), 1967; from memory
 * @checked          tests/models/pressureSinkage.test.ts
 */
export function reecePressure(sinkageM: number, widthM: number, soil: ReeceSoil): number {
  if (!(sinkageM >= 0)) throw new UsageError(`reecePressure: expected a sinkage of at least 0 m, found ${sinkageM}`);
  if (!(widthM > 0)) throw new UsageError(`reecePressure: expected a width above 0 m, found ${widthM}`);
  return (soil.cohesivePa + soil.frictionalPaPerM * widthM) * (sinkageM / widthM) ** soil.exponent;
}

/**
 * Bekker's constants in Reece's form, equal at one width.
 *
 *   k₁ = k_c b^(n−1)      k₂ = k_φ b^(n−1)
 *
 * Equal at every width only when n = 1: the forms differ in how a plate's size matters.
 *
 * @param soil     n, k_c, k_φ
 * @param widthM   b [m], > 0
 * @returns        n, k₁, k₂
 * @throws         UsageError when the width is not above zero
 * @source         algebra of the two forms
 * @checked        tests/models/pressureSinkage.test.ts
 */
export function bekkerAsReece(soil: BekkerSoil, widthM: number): ReeceSoil {
  if (!(widthM > 0)) throw new UsageError(`bekkerAsReece: expected a width above 0 m, found ${widthM}`);
  const scale = widthM ** (soil.exponent - 1);
  return { exponent: soil.exponent, cohesivePa: soil.cohesive * scale, frictionalPaPerM: soil.frictional * scale };
}
