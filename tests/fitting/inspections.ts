import type { InspectionRecord } from "../../src/campaign/campaign.ts";

/** An inspection with nothing written down but what is given. */
export function inspection(distanceM: number, rest: Partial<InspectionRecord> = {}): InspectionRecord {
  return { wheel: "W1", distanceM, massKg: null, soilMassKg: null, cleanedMassKg: null, radiusM: null, stiffnessNm: null, pullCoefficient: null, run: null, brokenElements: null, failed: false, remark: "", line: 2, ...rest };
}
