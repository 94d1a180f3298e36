import type { InspectionRecord } from "../campaign/campaign.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import { estimateFrom, undetermined } from "../core/estimate.ts";
import type { BudgetRow, Estimate } from "../core/estimate.ts";

/**
 * Mass of an inspected wheel without the soil that stuck to it.
 *
 *   m = m_cleaned,  or  m = m_weighed − m_soil        u² = u_weighing² (+ u_soil²)
 *
 * A wheel that has not run yet counts as clean, and so does one whose soil is stated as 0. What did not come off by
 * cleaning stays in. Without `massUncertainty` the mass has a value and no uncertainty.
 *
 * @param record     the inspection
 * @param endurance  the rig's block of that name
 * @returns          m [kg]; NaN when mass or soil was not written down
 * @source           common practice
 * @checked          tests/fitting/soilFreeMass.test.ts
 */
export function soilFreeMass(record: InspectionRecord, endurance: Rig["endurance"]): Estimate<"kg"> {
  const { wheel, distanceM, massKg, soilMassKg, cleanedMassKg } = record;
  const clean = soilMassKg === 0 || (soilMassKg === null && distanceM === 0);
  if (cleanedMassKg === null && massKg === null) return undetermined("kg", "the wheel was not weighed");
  if (cleanedMassKg === null && !clean && soilMassKg === null) return undetermined("kg", "the wheel was weighed with the soil that stuck to it, and neither the soil's mass nor a mass after cleaning is stated");
  const corrected = cleanedMassKg === null && !clean;
  const value = cleanedMassKg ?? (massKg as number) - (corrected ? (soilMassKg as number) : 0);
  const method = cleanedMassKg !== null ? "weighed after cleaning" : corrected ? "as weighed, less the soil that stuck to it" : "weighed clean";
  const missing = [...(endurance?.massUncertainty === undefined ? ["massUncertainty"] : []), ...(corrected && endurance?.soilMassUncertainty === undefined ? ["soilMassUncertainty"] : [])];
  if (endurance === undefined || missing.length > 0) return undetermined("kg", `${method}; rig.yaml states no ${missing.join(" and no ")} under endurance`, value);
  const at = `wheel ${wheel} after ${distanceM / 1000} km`;
  const row = (cause: string, effect: number): BudgetRow => ({ cause: `${cause}, ${at}`, effect, sharedBy: null, degreesOfFreedom: Infinity });
  return estimateFrom(value, "kg", method, [row("weighing", endurance.massUncertainty as number), ...(corrected ? [row("mass of the soil", -(endurance.soilMassUncertainty as number))] : [])]);
}
