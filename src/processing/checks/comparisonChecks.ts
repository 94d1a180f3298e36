import type { Campaign } from "../../campaign/campaign.ts";
import type { DayFinding } from "../dayFinding.ts";
import type { RunResult } from "../dayResult.ts";
import { bedOrder } from "./bedOrder.ts";
import { comparedSpeeds } from "./comparedSpeeds.ts";
import { currentTorque } from "./currentTorque.ts";
import { sameNumbers } from "./sameNumbers.ts";
import { stiffnessShift } from "./stiffnessShift.ts";
import { wheelBlocks } from "./wheelBlocks.ts";
import { wheelWeight } from "./wheelWeight.ts";

/** Whether runs, wheels, beds and files belong together as the sheet says, and whether wheels may be compared. */
export function comparisonChecks(runs: readonly RunResult[], campaign: Campaign): DayFinding[] {
  return [
    ...wheelWeight(runs, campaign),
    ...bedOrder(campaign),
    ...sameNumbers(runs),
    ...comparedSpeeds(runs, campaign),
    ...wheelBlocks(campaign),
    ...stiffnessShift(runs, campaign),
    ...currentTorque(runs, campaign),
  ];
}
