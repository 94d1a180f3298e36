import type { Campaign } from "../campaign/campaign.ts";
import type { DayResult } from "./dayResult.ts";
import { coneGradient } from "./measures/coneGradient.ts";
import { coneMeanIndex } from "./measures/coneMeanIndex.ts";

/** Cone index, its gradient and how even they are, of every bed that has readings. */
export function conesFrom({ beds, cones, rig }: Campaign): DayResult["cones"] {
  return beds.flatMap((bed) => {
    const gradient = coneGradient(bed, cones, rig.tolerances);
    if (gradient === null) return [];
    const { index, profiles, findings } = coneMeanIndex(bed.id, cones, rig.coneIndexDepth, rig.tolerances.coneSpread);
    return [{ ...gradient, index, profiles, findings: [...gradient.findings, ...findings] }];
  });
}
