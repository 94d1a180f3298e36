import type { WheelRecord } from "../../campaign/campaign.ts";
import type { Rig } from "../../campaign/rigSchema.ts";
import { combine, estimateFrom } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";

/**
 * Unloaded radius as the wheel record states it, to the rim or to the lugs' tips as the rig description's policy says.
 *
 *   R (+ lug height)     [m]
 *
 * @param wheel  the wheel record
 * @param rig    says whether lugs count, and how well the record is known
 * @returns      the radius; its doubt is the record's stated one, shared by every run of the wheel (none where none is stated)
 * @source       a definition
 * @checked      tests/processing/measures/loadedRadius.test.ts
 */
export function recordedRadius(wheel: WheelRecord, rig: Rig): Estimate<"m"> {
  const { lugs, uncertainty } = rig.slipRadius;
  const tip = wheel.radiusM + (lugs === "with" ? wheel.lugHeightM : 0);
  return estimateFrom(tip, "m", `unloaded radius ${lugs} lugs, from the wheel record`, [{ cause: `radius in the record of ${wheel.id}`, effect: uncertainty ?? 0, sharedBy: `wheel record ${wheel.id}`, degreesOfFreedom: Infinity }]);
}

/**
 * Loaded radius: from the axle to the hard ground under load.
 *
 *   r_l = R − δ(W)     [m]
 *
 * @param wheel       the wheel record
 * @param rig         says whether the radius reaches to the lugs' tips
 * @param deflection  δ at the load, from a press on a hard plate [m]
 * @returns           r_l; without an uncertainty where the deflection has none
 * @source            a definition
 * @checked           tests/processing/measures/loadedRadius.test.ts
 */
export function loadedRadius(wheel: WheelRecord, rig: Rig, deflection: Estimate<"m">): Estimate<"m"> {
  const recorded = recordedRadius(wheel, rig);
  return combine([recorded, deflection], (radius = Number.NaN, delta = Number.NaN) => radius - delta, "m", `loaded radius: ${recorded.method}, less the deflection`);
}
