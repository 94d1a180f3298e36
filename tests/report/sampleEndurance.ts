import { estimateFrom } from "../../src/core/estimate.ts";
import { enduranceFrom } from "../../src/fitting/enduranceFrom.ts";
import type { EnduranceResult } from "../../src/processing/enduranceResult.ts";
import { enduranceRun } from "../fitting/enduranceRuns.ts";
import { inspection } from "../fitting/inspections.ts";
import { rigWith } from "../processing/recordings.ts";

/** What the sample day holds its wheels against. */
export const sampleBlock = { missionDistance: 40_000, massUncertainty: 0.0002, soilMassUncertainty: 0.0005, radiusUncertainty: 0.00002, wearingDensity: 2700, wearingDensityUncertainty: 20, weibullShape: 2, claim: { reliability: 0.9, confidence: 0.9 }, lifeLine: { range: 200, cycles: 1e7, exponent: 5, cutOff: null, scatterFactor: 3 } };

const own = (value: number, u: number, unit: "m" | "N" | "1") => estimateFrom(value, unit, "made", [{ cause: `own ${unit}`, effect: u, sharedBy: null, degreesOfFreedom: 12 }]);
export const sampleRun = enduranceRun("E1", { distance: own(500, 0.5, "m"), verticalLoad: own(60, 0.2, "N"), slip: own(0.2, 0.004, "1") }, [[4, 19000], [7, 350], [63, 1]]);

/** Two wheels inspected, one with everything and one with little; `hostile` is a name that nothing may act on. */
export function sampleEndurance(hostile: string): EnduranceResult {
  const rig = rigWith({ endurance: sampleBlock });
  const inspections = [
    ...[0, 1, 3, 10, 20].map((km, i) => inspection(km * 1000, { massKg: 1.6 - 0.0004 * km + 0.02 * Math.sign(km), soilMassKg: 0.02 * Math.sign(km), radiusM: 0.1 - 1e-5 * km, stiffnessNm: 12000 - 300 * Math.log1p(km) + 20 * (i % 2), pullCoefficient: 0.3 - 0.002 * km + 0.001 * (i % 2), brokenElements: i > 3 ? 1 : 0, remark: "seen <b>" })),
    inspection(0, { wheel: hostile, massKg: 1.2 }),
    inspection(4000, { wheel: hostile, massKg: 1.25, remark: "soil not weighed" }),
    inspection(2000, { wheel: hostile }),
  ];
  return enduranceFrom([sampleRun], { rig, inspections }) as EnduranceResult;
}
