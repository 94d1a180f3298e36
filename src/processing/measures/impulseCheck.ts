import type { TolerancePair } from "../../campaign/tolerances.ts";
import { undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import type { Measured } from "../../core/measure.ts";
import { likelyUnit } from "../../core/likelyUnit.ts";
import { fromDetermined } from "./fromDetermined.ts";

/**
 * Whether the accelerometer's integral over the contact is the change of speed that other evidence shows.
 *
 *   ∫ a dt / (v₁ + v₂)          should be 1
 *
 * [1]. A cut-off peak, a wrong gain, a filter or a loose mounting make it differ. v₁ and v₂ come from the height channel
 * where there is one, else from drop height and times (see {@link timedSpeeds}).
 *
 * @param change  ∫ a dt over the contact [m/s]
 * @param impact  v₁ from other evidence [m/s]
 * @param rebound v₂ from other evidence [m/s]
 * @param source  what that evidence is
 * @param limits  limits of |ratio − 1|
 * @returns       the ratio and a finding beyond a limit
 * @source        momentum; limits common practice
 * @checked       tests/processing/measures/dropMeasures.test.ts
 */
export function impulseCheck(change: Estimate<"m/s">, impact: Estimate<"m/s">, rebound: Estimate<"m/s">, source: string, limits: TolerancePair): Measured<"1"> {
  const estimate = fromDetermined([change, impact, rebound], (dv, v1, v2) => dv / (v1 + v2), "1", `∫a dt over the first contact against the change of speed from ${source}`);
  const away = Math.abs(estimate.value - 1);
  if (!Number.isFinite(away)) {
    const reason = [change, impact, rebound].find((part) => !Number.isFinite(part.value))?.method ?? "a part is missing";
    return { estimate: undetermined("1", reason), findings: [finding("impulse-unchecked", "note", `The impulse of the drop could not be checked: ${reason}`)] };
  }
  if (away <= limits.look) return { estimate, findings: [] };
  const severity = away > limits.reject ? "reject" : "look";
  return { estimate, findings: [finding("impulse-disagrees", severity, `The acceleration integrated over the contact gives ${change.value.toFixed(3)} m/s; ${source} give ${(impact.value + rebound.value).toFixed(3)} m/s. Look at the accelerometer's gain, range and mounting, and at the drop height.${likelyUnit(estimate.value, "acceleration")}`, { channel: "hubAcceleration", measured: away, limit: limits[severity] })] };
}
