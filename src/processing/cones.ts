import type { Campaign } from "../campaign/campaign.ts";
import type { DayResult } from "./dayResult.ts";
import { coneGradient } from "./measures/coneGradient.ts";

/** Cone index gradient of every bed that has readings. */
export function conesFrom(campaign: Campaign): DayResult["cones"] {
  return campaign.beds.map((bed) => coneGradient(bed, campaign.cones, campaign.rig.tolerances)).filter((cone) => cone !== null);
}
