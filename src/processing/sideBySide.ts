import type { Campaign } from "../campaign/campaign.ts";
import { dayChecks } from "./checks/dayChecks.ts";
import { withDayRejects } from "./dayFinding.ts";
import type { DayFinding } from "./dayFinding.ts";
import type { RunResult } from "./dayResult.ts";
import { referencesFrom } from "./references.ts";
import type { References } from "./references.ts";

/** What runs give to each other, and what only they together show. */
export interface SideBySide {
  /** the verdict of each after what the others say of it */
  readonly runs: readonly RunResult[];
  /** from the runs that are left to count */
  readonly references: References;
  readonly findings: readonly DayFinding[];
}

/** @param measured  runs of the day by their own findings, in the order of the sheet: sums must not depend on which was read first */
export function sideBySide(measured: readonly RunResult[], campaign: Campaign): SideBySide {
  const findings = dayChecks(measured, campaign, referencesFrom(measured, campaign));
  const runs = withDayRejects(measured, findings);
  return { runs, references: referencesFrom(runs, campaign), findings };
}
