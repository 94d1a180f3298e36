import type { Estimate } from "../../core/estimate.ts";
import { fromDetermined } from "./fromDetermined.ts";

/**
 * Share of the impact energy that does not come back.
 *
 *   1 − e²
 *
 * [1]. First contact only; for energy of the motion along the normal.
 *
 * @param restitution e
 * @returns           the share
 * @source            energy balance; R. Cross, Am. J. Phys. 67 (1999) 222; e² is the rebound resilience of ISO 4662 (definition from its summary)
 * @checked           tests/processing/measures/restitution.test.ts
 */
export function absorbedShare(restitution: Estimate<"1">): Estimate<"1"> {
  return fromDetermined([restitution], (e) => 1 - e * e, "1", `1 − e², e ${restitution.method}`);
}
