import type { WheelRecord } from "../../campaign/campaign.ts";
import type { Rig } from "../../campaign/rigSchema.ts";
import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";

/**
 * What falls, as a mass that moves with the hub.
 *
 *   m = m_carriage + m_wheel
 *
 * [kg]. The part of the wheel that lies on the ground does not move with the hub while this is braked, so the mass that
 * the contact feels is a little smaller; the stated uncertainty must cover it.
 *
 * @param wheel what falls beside the carriage
 * @param drop  the rig's description of its drops
 * @returns     m; without an uncertainty where rig.yaml states no massUncertainty
 * @source      definition
 * @checked     tests/processing/measures/dropContact.test.ts
 */
export function fallingMass(wheel: WheelRecord | null, drop: NonNullable<Rig["drop"]>): Estimate<"kg"> {
  if (wheel === null) return undetermined("kg", "the wheel is not on the wheel sheet, so what falls is not known");
  const value = drop.carriageMass + wheel.massKg;
  if (drop.massUncertainty === undefined) return undetermined("kg", "rig.yaml states no massUncertainty for what falls in a drop", value);
  const cause = `mass that falls with wheel ${wheel.id}`;
  return estimateFrom(value, "kg", "carriage and wheel, as weighed", [{ cause, effect: drop.massUncertainty, sharedBy: cause, degreesOfFreedom: Infinity }]);
}
