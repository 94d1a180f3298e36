import type { Rig } from "../../campaign/rigSchema.ts";
import { combine } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import type { Finding } from "../../core/finding.ts";
import { significant } from "../../core/significant.ts";
import { judged } from "../checks/judged.ts";

/** how many standard uncertainties the drawbar's work must exceed the axle's by */
const clear = 3;

/** Ground takes work and never gives any: over a whole run the drawbar cannot give more than the axle received. */
export function energyBalance(axle: Estimate | undefined, pull: Estimate | undefined, rig: Rig): Finding[] {
  if (axle === undefined || pull === undefined) return [];
  const excess = combine([axle, pull], (received, given) => (given as number) - (received as number), "J", "work of the pull less that of the axle");
  if (!(excess.value > clear * (excess.standardUncertainty ?? Infinity))) return [];
  const share = excess.value / Math.max(Math.abs(axle.value), Math.abs(pull.value));
  return judged("energy-excess", share, rig.tolerances.energyExcess, () => `Over the run the drawbar gave ${significant(pull.value, 3)} J and the axle received ${significant(axle.value, 3)} J, which cannot be: the ground only takes. Look at the signs and units of torque, pull and wheel angle in rig.yaml`, { channel: "wheelTorque" });
}
