import type { Campaign } from "../../campaign/campaign.ts";
import type { DayFinding } from "../dayFinding.ts";
import type { RunResult } from "../dayResult.ts";
import { deflectionOf, pick } from "../references.ts";
import type { References } from "../references.ts";
import { judged } from "./judged.ts";

/** Up to here a wheel is treated as good as rigid [m]; above, its press run and its hub are compared as a share. */
const rigidM = 0.001;

/**
 * A wheel that is given no deflection to speak of, by its record or by its press run, must not come down on the hard floor: its
 * deflection would be counted as sinkage.
 */
export function rigidWheel(runs: readonly RunResult[], campaign: Campaign, references: References): DayFinding[] {
  return runs.flatMap((run) => {
    const wheel = campaign.wheels.find((candidate) => candidate.id === run.plan.wheel);
    const drop = pick(run, "hubDrop");
    const load = pick(run, "verticalLoad");
    if (run.plan.kind !== "hardFloor" || wheel === undefined || drop === null || drop.standardUncertainty === null || load === null) return [];
    const given = deflectionOf(wheel, load.value, references);
    if (given.standardUncertainty === null || given.value > rigidM) return [];
    const clear = drop.value - given.value - 2 * drop.standardUncertainty;
    const source = references.deflections.some((curve) => curve.wheel === wheel.id) ? `has ${(1000 * given.value).toFixed(2)} mm of deflection by its press run` : "is recorded as rigid";
    const resting = runs.filter(({ plan }) => plan.wheel === wheel.id && (plan.kind === "traction" || plan.kind === "loadDeflection")).map(({ plan }) => plan.id);
    const found = judged("rigid-deflects", clear, campaign.rig.tolerances.rigidDeflection, () => `${run.plan.id}: wheel ${wheel.id} ${source}, and yet its hub came down ${(1000 * drop.value).toFixed(2)} mm on the hard floor. That much of every sinkage is its deflection. Look at the wheel's record and at whose press run it is; press it on a hard plate again`, { channel: "hubHeight" });
    // The rolled radius holds; what is counted from the wheel's deflection does not.
    return found.map((one) => ({ ...one, takesOut: resting }));
  });
}
