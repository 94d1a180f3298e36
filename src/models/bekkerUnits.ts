import { UsageError } from "../core/errors.ts";
import { conversion, units } from "../core/units.ts";
import type { Unit } from "../core/units.ts";
import type { BekkerSoil } from "./pressureSinkage.ts";

/**
 * Bekker's constants from other units to N and m; the factor follows the exponent.
 *
 *   k_c:  (force unit in N) / (length unit in m)^(n+1)        k_φ:  (force unit in N) / (length unit in m)^(n+2)
 *
 * A factor that leaves n out is wrong by orders of magnitude, so n is part of the constants.
 *
 * @param soil     n [1], k_c in force/length^(n+1), k_φ in force/length^(n+2)
 * @param force    the force unit, e.g. "lbf" or "kN"
 * @param length   the length unit, e.g. "in" or "mm"
 * @returns        the constants in N/m^(n+1) and N/m^(n+2)
 * @throws         UsageError when the units are not a force and a length
 * @source         dimensions of Bekker's form; pound-force and inch exact by definition
 * @checked        tests/models/bekkerUnits.test.ts
 */
export function bekkerToSi(soil: BekkerSoil, force: Unit, length: Unit): BekkerSoil {
  if (units[force].kind !== "force" || units[length].kind !== "length") throw new UsageError(`bekkerToSi: expected a force and a length, found "${force}" and "${length}"`);
  const newtons = conversion(force, "N").factor;
  const metres = conversion(length, "m").factor;
  return {
    exponent: soil.exponent,
    cohesive: (soil.cohesive * newtons) / metres ** (soil.exponent + 1),
    frictional: (soil.frictional * newtons) / metres ** (soil.exponent + 2),
  };
}
