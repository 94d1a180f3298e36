import type { Finding } from "../../core/finding.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { slipRadius } from "../references.ts";
import type { References } from "../references.ts";
import { judged } from "./judged.ts";

/** Where slip is counted from a radius of the record, what the rolled radius would have made of it. */
export function radiusChoice(run: PreparedRun, radiusM: number, slip: number, loadN: number, references: References): Finding[] {
  const { policy } = run.rig.slipRadius;
  if (run.wheel === null || policy === "effective" || !(radiusM > 0)) return [];
  const rolled = slipRadius({ ...run.rig, slipRadius: { ...run.rig.slipRadius, policy: "effective", lugs: "with" } }, run.wheel, loadN, references);
  if (rolled.standardUncertainty === null) return [];
  const other = 1 - ((1 - slip) * radiusM) / rolled.value;
  const shift = Math.abs(other - slip);
  return judged("radius-choice", shift, run.rig.tolerances.radiusChoice, () => `Slip is ${slip.toFixed(3)} from the ${policy} radius of ${(1000 * radiusM).toFixed(1)} mm, and ${other.toFixed(3)} from the ${(1000 * rolled.value).toFixed(1)} mm that the wheel rolls on the hard floor. Count slip from the effective radius, or say with every slip which radius it is counted from`);
}
