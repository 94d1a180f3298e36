import type { WheelRecord } from "../campaign/campaign.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import { undetermined } from "../core/estimate.ts";
import type { Measure } from "../core/measure.ts";
import type { Segment } from "../core/segment.ts";
import { constantReading, toEstimate } from "./measures/reading.ts";
import type { Reading } from "./measures/reading.ts";
import { signedSlip } from "./measures/slip.ts";
import { slipRadius } from "./references.ts";
import type { References } from "./references.ts";

type Policy = Pick<Rig["slipRadius"], "policy" | "lugs">;

/** Radii that slip may be counted from; the declared one stands beside them as the run's slip or skid. */
const policies = (declared: Rig["slipRadius"]["lugs"]): readonly (Policy & { readonly name: string; readonly label: string })[] => [
  { name: "slipByRim", label: "Slip if counted from the rim, without lugs", policy: "unloaded", lugs: "without" },
  { name: "slipByLugTips", label: "Slip if counted from the lugs’ tips", policy: "unloaded", lugs: "with" },
  { name: "slipByLoadedRadius", label: "Slip if counted from the loaded radius", policy: "loaded", lugs: declared },
  { name: "slipByRollingRadius", label: "Slip if counted from the rolling radius on the hard floor", policy: "effective", lugs: "with" },
];

/** The run's slip under each policy of the radius, side by side: what the declared choice matters. Skid is negative here. */
export function slipByRadius(run: { readonly id: string; readonly rig: Rig; readonly wheel: WheelRecord }, speed: Reading<"m/s">, turning: Reading<"rad/s">, loadN: number, references: References, segment: Segment): Measure[] {
  return policies(run.rig.slipRadius.lugs).map(({ name, label, policy, lugs }): Measure => {
    const radius = slipRadius({ ...run.rig, slipRadius: { ...run.rig.slipRadius, policy, lugs } }, run.wheel, loadN, references);
    const slip = signedSlip(speed, turning, constantReading(radius, speed.perRevolution.length));
    const estimate = radius.standardUncertainty === null ? undetermined("1", radius.method) : toEstimate(slip, run.id, `slip, or minus the skid, with a radius of ${(1000 * radius.value).toFixed(2)} mm: ${radius.method}`);
    return { name, label, estimate, segment };
  });
}
