import type { Campaign } from "../../campaign/campaign.ts";
import type { DayFinding } from "../dayFinding.ts";
import type { RunResult } from "../dayResult.ts";
import type { References } from "../references.ts";
import { bedRecordFindings } from "./bedRecords.ts";
import { comparisonChecks } from "./comparisonChecks.ts";
import { deflectionDiffers } from "./deflectionDiffers.ts";
import { floorOffset } from "./floorOffset.ts";
import { recordRadius } from "./recordRadius.ts";
import { repeatsFindings } from "./repeats.ts";
import { rigidWheel } from "./rigidWheel.ts";
import { sideForceGrows } from "./sideForceGrows.ts";
import { torqueAgainstPull } from "./torqueAgainstPull.ts";

/** What only runs and records side by side can show. */
export function dayChecks(runs: readonly RunResult[], campaign: Campaign, references: References): DayFinding[] {
  return [
    ...recordRadius(campaign, references),
    ...floorOffset(runs, campaign, references),
    ...deflectionDiffers(runs, campaign, references),
    ...torqueAgainstPull(runs, campaign),
    ...sideForceGrows(runs, campaign),
    ...repeatsFindings(runs, campaign),
    ...bedRecordFindings(runs, campaign),
    ...rigidWheel(runs, campaign, references),
    ...comparisonChecks(runs, campaign),
  ];
}
