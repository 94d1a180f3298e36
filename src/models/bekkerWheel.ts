import { UsageError } from "../core/errors.ts";
import { significant } from "../core/significant.ts";
import type { BekkerSoil } from "./pressureSinkage.ts";
import type { Drum, NoEquilibrium } from "./wheelSoil.ts";

/** Sinkage beyond this share of the diameter leaves the shallow-rut formula behind. Common practice. */
const deepest = 0.15;

/** A towed rigid wheel by the closed forms. */
export interface TowedWheel {
  /** z [m] */
  readonly sinkageM: number;
  /** R_c, motion resistance by compacting the soil [N] */
  readonly resistanceN: number;
  /** p at z: the ground pressure beyond which a tyre no longer stays round [Pa] */
  readonly criticalPressurePa: number;
}

/**
 * Sinkage and compaction resistance of a towed rigid wheel, closed form for shallow ruts.
 *
 *   z = [3W / ((3 − n)(k_c + b k_φ) √D)]^(2/(2n+1))      R_c = (k_c + b k_φ) z^(n+1)/(n+1)      p = (k_c/b + k_φ) zⁿ
 *
 * The load is approximated: against the exact integral it is off by +9 % at n = 0.5 and −18 % at n = 1.6 (z/D = 0.067).
 *
 * @param wheel   R, b [m]
 * @param soil    n below 3, k_c, k_φ
 * @param loadN   W [N], > 0
 * @returns       sinkage, resistance, pressure; or, when z passes 0.15 D, that the form does not hold
 * @throws        UsageError when the load is not above zero or n is not below 3
 * @source        M. G. Bekker, Theory of Land Locomotion, 1956; limit of z/D: common practice
 * @checked       tests/models/bekkerWheel.test.ts
 */
export function bekkerTowedWheel(wheel: Drum, soil: BekkerSoil, loadN: number): TowedWheel | NoEquilibrium {
  const { exponent: n } = soil;
  if (!(loadN > 0)) throw new UsageError(`bekkerTowedWheel: expected a load above 0 N, found ${loadN}`);
  if (!(n < 3)) throw new UsageError(`bekkerTowedWheel: expected an exponent below 3, found ${n}`);
  const stiffness = soil.cohesive + wheel.widthM * soil.frictional;
  if (!(stiffness > 0)) return { reason: "the soil's stiffness at this width is not above zero" };
  const diameter = 2 * wheel.radiusM;
  const sinkageM = ((3 * loadN) / ((3 - n) * stiffness * Math.sqrt(diameter))) ** (2 / (2 * n + 1));
  if (sinkageM > deepest * diameter) return { reason: `the closed form gives a sinkage of ${significant(1000 * sinkageM, 3)} mm, beyond ${deepest} of the diameter, where it does not hold` };
  return { sinkageM, resistanceN: (stiffness * sinkageM ** (n + 1)) / (n + 1), criticalPressurePa: (stiffness / wheel.widthM) * sinkageM ** n };
}
