import type { BedRecord, ConeReading } from "../../campaign/campaign.ts";
import type { Tolerances } from "../../campaign/tolerances.ts";
import type { Estimate } from "../../core/estimate.ts";
import type { Finding } from "../../core/finding.ts";
import { estimateFrom, undetermined } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import { groupBy } from "../../core/groupBy.ts";
import { likelyUnit } from "../../core/likelyUnit.ts";
import type { Acceptance } from "../dayResult.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import { mean, standardDeviation } from "../../numerics/statistics.ts";

/**
 * Slope of one cone profile: unweighted straight line of the index over depth, not forced through zero.
 *
 *   G = d(CI)/dz     [Pa/m]
 *
 * @param readings   readings of one profile
 * @returns          G; NaN with fewer than two different depths
 * @source           definition; common practice
 * @checked          tests/processing/measures/coneGradient.test.ts
 */
export function profileGradient(readings: readonly ConeReading[]): number {
  if (new Set(readings.map((reading) => reading.depthM)).size < 2) return Number.NaN;
  return lineFit(readings.map((reading) => reading.depthM), readings.map((reading) => reading.indexPa)).slope;
}

/**
 * Cone index gradient of a bed: mean over its profiles, uncertainty from their scatter, held against the bed's target.
 *
 *   G = mean(Gᵢ)     u = s/√m
 *
 * A measure of how alike beds are prepared; it does not carry over to other gravity.
 *
 * @param bed          the bed and its target gradient
 * @param readings     cone readings of the day; those of other beds are ignored
 * @param tolerances   `coneGradient`: share of the target beyond which to look or reject
 * @returns            the gradient [Pa/m] and findings; uncertainty is null with fewer than 2 profiles; null without any reading
 * @source             common practice
 * @checked            tests/processing/measures/coneGradient.test.ts
 */
export function coneGradient(bed: BedRecord, readings: readonly ConeReading[], tolerances: Tolerances): { readonly bed: string; readonly acceptance: Acceptance; readonly gradient: Estimate<"Pa/m">; readonly findings: readonly Finding[] } | null {
  const own = readings.filter((reading) => reading.bed === bed.id);
  if (own.length === 0) return null;
  const findings: Finding[] = [];
  const gradients: number[] = [];
  for (const [position, profile] of groupBy(own, (reading) => reading.position)) {
    const gradient = profileGradient(profile);
    if (Number.isFinite(gradient)) gradients.push(gradient);
    else findings.push(finding("cone-profile-too-short", "look", `Bed ${bed.id}, cone profile ${position}: one depth only, so it has no gradient. Record at least two depths.`));
  }
  if (gradients.length === 0) return { bed: bed.id, acceptance: "not determined", gradient: undetermined("Pa/m", "no profile with two depths"), findings };
  const value = mean(gradients);
  const method = `mean slope of ${gradients.length} ${gradients.length === 1 ? "profile" : "profiles"}`;
  const scatter = gradients.length < 2 ? 0 : standardDeviation(gradients) / Math.sqrt(gradients.length);
  const gradient: Estimate<"Pa/m"> =
    gradients.length < 2
      ? undetermined("Pa/m", `${method}; one profile does not show how even the bed is`, value)
      : estimateFrom(value, "Pa/m", method, [{ cause: "scatter between cone profiles", effect: scatter, sharedBy: null, degreesOfFreedom: gradients.length - 1 }]);
  const target = bed.targetGradientPaM;
  let acceptance: Acceptance = target === null ? "no target" : "accepted";
  if (target !== null) {
    const off = (value - target) / target;
    const { look, reject } = tolerances.coneGradient;
    if (Math.abs(off) > look) {
      const severity = Math.abs(off) > reject ? "reject" : "look";
      acceptance = severity === "reject" ? "rejected" : "look";
      findings.push(finding("cone-gradient-off", severity, `Bed ${bed.id}: cone gradient ${(value / 1e6).toFixed(3)} kPa/mm, ${(100 * Math.abs(off)).toFixed(0)} % ${off > 0 ? "above" : "below"} the target of ${(target / 1e6).toFixed(3)} kPa/mm. Prepare the bed again.${likelyUnit(value / target, "pressure")}`, { measured: off, limit: severity === "reject" ? reject : look }));
    }
  }
  return { bed: bed.id, acceptance, gradient, findings };
}
