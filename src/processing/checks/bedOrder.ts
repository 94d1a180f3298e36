import type { Campaign } from "../../campaign/campaign.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";

/** A bed is prepared, used and gone: a bed named again after another one is a slip of the pen, or a bed used twice. */
export function bedOrder(campaign: Campaign): Finding[] {
  const onBeds = campaign.runs.filter((run) => run.bed !== null);
  return onBeds.flatMap((run, i): Finding[] => {
    const before = onBeds[i - 1];
    if (before === undefined || before.bed === run.bed) return [];
    const earlier = onBeds.slice(0, i).findLast((other) => other.bed === run.bed);
    if (earlier === undefined) return [];
    return [finding("bed-reappears", "look", `${run.id} is said to run on bed ${run.bed}, last used in ${earlier.id}, though ${before.id} in between ran on ${before.bed}. Look at the bed's name on the run sheet; a bed that was prepared again needs a name of its own`)];
  });
}
