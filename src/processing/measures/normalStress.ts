import type { BudgetRow } from "../../core/estimate.ts";
import type { Finding } from "../../core/finding.ts";
import type { Measured } from "../../core/measure.ts";
import { estimateFrom, undetermined } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import { indexAt } from "../../core/recording.ts";
import { likelyUnit } from "../../core/likelyUnit.ts";
import { effectiveSampleSize, lag1Autocorrelation, mean, standardDeviation } from "../../numerics/statistics.ts";
import { find } from "../preparedRun.ts";
import type { PreparedRun } from "../preparedRun.ts";

/** share of the set normal stress beyond which a person looks; common practice */
const away = 0.1;

/**
 * Normal stress under a shear plate while it shears: mean force over area.
 *
 *   σ = mean(N) / A     [Pa]
 *
 * Causes: scatter of the samples (correlated ones counted once), the stated offset and gain uncertainty of the force.
 *
 * @param run      with `normalForce` [N]
 * @param areaM2   A [m²]
 * @param fromS    start of the shearing on the run's clock [s]
 * @param toS      its end [s]
 * @returns        { estimate: σ [Pa], findings }; uncertainty is null where only the run sheet states the stress
 * @throws         UsageError when the channel has another unit
 * @source         common practice
 * @checked        tests/processing/measures/normalStress.test.ts
 */
export function normalStress(run: PreparedRun, areaM2: number, fromS: number, toS: number): Measured<"Pa"> {
  const set = run.plan.normalStressPa;
  const found = find(run, "normalForce", "N");
  const samples = found === null ? [] : [...found.channel.samples.subarray(indexAt(found.time, fromS), indexAt(found.time, toS))].filter((value) => Number.isFinite(value));
  if (found === null || samples.length < 2) {
    if (set === null) return { estimate: undetermined("Pa", "neither recorded nor stated on the run sheet"), findings: [finding("no-normal-stress", "reject", "The normal force was not recorded and the run sheet states no normal stress; the shear strength belongs to no stress.")] };
    return { estimate: undetermined("Pa", "as stated on the run sheet; not recorded, so its uncertainty is not known", set), findings: [finding("normal-stress-not-recorded", "note", "The normal force was not recorded; the run sheet's normal stress is used as it stands.")] };
  }
  const force = mean(samples);
  const deviation = standardDeviation(samples);
  const effective = deviation > 0 ? Math.max(1, effectiveSampleSize(samples.length, lag1Autocorrelation(samples))) : samples.length;
  const rows: BudgetRow[] = [{ cause: "scatter of the normal force", effect: deviation / Math.sqrt(effective) / areaM2, sharedBy: null, degreesOfFreedom: Math.max(1, effective - 1) }];
  const doubt = found.channel.doubt;
  if (doubt !== null) {
    const cause = `calibration ${doubt.calibration}`;
    rows.push({ cause: `offset of the normal force of ${run.plan.id}`, effect: doubt.offset / areaM2, sharedBy: null, degreesOfFreedom: Infinity });
    rows.push({ cause, effect: (force * doubt.relativeGain) / areaM2, sharedBy: cause, degreesOfFreedom: Infinity });
  }
  const estimate = estimateFrom(force / areaM2, "Pa", "mean normal force over the shear area while shearing", rows);
  const findings: Finding[] = [];
  if (set !== null && Math.abs(estimate.value - set) > away * set) {
    findings.push(finding("normal-stress-off", "look", `The normal stress was ${(estimate.value / 1000).toFixed(2)} kPa, the run sheet sets ${(set / 1000).toFixed(2)} kPa; the measured one is used.${likelyUnit(estimate.value / set, "pressure")}`, { channel: "normalForce", measured: estimate.value, limit: set }));
  }
  return { estimate, findings };
}
