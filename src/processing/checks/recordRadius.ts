import type { Campaign } from "../../campaign/campaign.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { likelyUnit } from "../../core/likelyUnit.ts";
import type { References } from "../references.ts";
import { deflectionOf } from "../references.ts";

/**
 * A wheel rolls on a radius between its tips and its tips less the whole deflection. A record beyond that counts the lugs twice,
 * or leaves them out, or is another wheel's.
 */
export function recordRadius(campaign: Campaign, references: References): Finding[] {
  const share = campaign.rig.tolerances.recordRadius;
  return references.rollingRadii.flatMap((radius) => {
    const wheel = campaign.wheels.find((candidate) => candidate.id === radius.wheel);
    if (wheel === undefined || radius.estimate.standardUncertainty === null) return [];
    const deflection = deflectionOf(wheel, radius.loadN, references);
    if (deflection.standardUncertainty === null) return [];
    const tip = wheel.radiusM + wheel.lugHeightM;
    const margin = share * tip + 2 * radius.estimate.standardUncertainty;
    const above = radius.estimate.value - (tip + margin);
    const below = tip - deflection.value - margin - radius.estimate.value;
    if (above <= 0 && below <= 0) return [];
    const mm = (value: number): string => (1000 * value).toFixed(1);
    return [finding("record-radius", "look", `Wheel ${wheel.id} rolled on ${mm(radius.estimate.value)} mm (${radius.runs.join(", ")}), while its record gives ${mm(tip)} mm to the tips and a deflection of ${mm(deflection.value)} mm. Measure the radius to the rim and the lugs from the rim; look also at the encoder's ratio.${likelyUnit(radius.estimate.value / tip, "length")}`, { measured: radius.estimate.value, limit: above > 0 ? tip + margin : tip - deflection.value - margin })];
  });
}
