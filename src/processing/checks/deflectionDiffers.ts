import type { Campaign } from "../../campaign/campaign.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { likelyUnit } from "../../core/likelyUnit.ts";
import type { RunResult } from "../dayResult.ts";
import { deflectionOf, pick } from "../references.ts";
import type { References } from "../references.ts";

/**
 * On a hard floor a wheel comes down by its deflection and nothing else: the hub's sensor and the press must agree. A factor
 * between them is a unit or a gain; only wheels that deflect clearly can show it.
 */
export function deflectionDiffers(runs: readonly RunResult[], campaign: Campaign, references: References): Finding[] {
  const share = campaign.rig.tolerances.deflectionAgreement;
  return runs.flatMap((run) => {
    const wheel = campaign.wheels.find((candidate) => candidate.id === run.plan.wheel);
    const drop = pick(run, "hubDrop");
    const load = pick(run, "verticalLoad");
    if (run.plan.kind !== "hardFloor" || wheel === undefined || drop === null || drop.standardUncertainty === null || load === null) return [];
    const pressed = deflectionOf(wheel, load.value, references);
    if (pressed.standardUncertainty === null || !(pressed.value > 0.001)) return [];
    const off = Math.abs(drop.value - pressed.value);
    const limit = share * pressed.value + 3 * Math.hypot(drop.standardUncertainty, pressed.standardUncertainty);
    if (off <= limit) return [];
    return [finding("deflection-differs", "look", `${run.plan.id}: on the hard floor the hub came down by ${(1000 * drop.value).toFixed(2)} mm where the press found ${(1000 * pressed.value).toFixed(2)} mm of deflection at that load. Look at the scale and unit of the hub height and of the press.${likelyUnit(drop.value / pressed.value, "length")}`, { channel: "hubHeight", measured: off, limit })];
  });
}
