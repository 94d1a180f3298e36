import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { WheelEndurance } from "../processing/enduranceResult.ts";

/** An inspection, the mass found, and why it does not count; null = it does. */
export type JudgedInspection = WheelEndurance["inspections"][number];

/**
 * Inspections of one wheel in the order in which they were written, with what cannot be.
 *
 *   a distance below an earlier one, and whatever follows a failure, does not count
 *   mᵢ − mᵢ₋₁ > 2 √(uᵢ² + uᵢ₋₁²), or > 0 without uncertainties: soil was left on the wheel, or a part was changed
 *
 * @param inspections  of one wheel, with the masses free of soil
 * @returns            each with its judgement, and the findings
 * @source             common practice
 * @checked            tests/fitting/inspectionFindings.test.ts
 */
export function judgedInspections(inspections: readonly Omit<JudgedInspection, "refused">[]): { readonly judged: readonly JudgedInspection[]; readonly findings: readonly Finding[] } {
  const findings: Finding[] = [];
  let reachedM = 0;
  let failedAtM: number | null = null;
  let before: JudgedInspection | null = null;
  const judged = inspections.map(({ record, mass }): JudgedInspection => {
    const place = `Wheel ${record.wheel}, line ${record.line} of inspections.csv`;
    let refused: string | null = null;
    if (record.distanceM < reachedM) {
      refused = "its distance lies below that of an earlier row";
      findings.push(finding("distance-backwards", "look", `${place}: ${record.distanceM / 1000} km comes after ${reachedM / 1000} km. The row is left out; correct the distance, or the order of the rows`, { measured: record.distanceM, limit: reachedM }));
    } else if (failedAtM !== null) {
      refused = "the wheel had failed before";
      if (!record.failed) findings.push(finding("sound-after-failure", "look", `${place}: the wheel is sound again at ${record.distanceM / 1000} km, having failed at ${failedAtM / 1000} km. A repaired wheel is another wheel: give it a name of its own. The row is left out`, { measured: record.distanceM, limit: failedAtM }));
    }
    const one: JudgedInspection = { record, mass, refused };
    if (refused !== null) return one;
    reachedM = record.distanceM;
    if (record.failed) failedAtM ??= record.distanceM;
    if (Number.isFinite(mass.value)) {
      if (before !== null) findings.push(...grown(before, one, place));
      before = one;
    }
    return one;
  });
  return { judged, findings };
}

function grown(before: JudgedInspection, now: JudgedInspection, place: string): Finding[] {
  const more = now.mass.value - before.mass.value;
  const limit = 2 * Math.hypot(before.mass.standardUncertainty ?? 0, now.mass.standardUncertainty ?? 0);
  if (more <= limit) return [];
  return [finding("mass-grew", "look", `${place}: the wheel is ${(1000 * more).toPrecision(3)} g heavier than at ${before.record.distanceM / 1000} km, soil taken off. Soil was left in it, a part was changed, or a weighing is wrong: clean it, weigh it again`, { measured: more, limit })];
}
