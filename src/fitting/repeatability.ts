import type { RunPlan } from "../campaign/campaign.ts";
import type { Unit } from "../core/units.ts";
import { groupBy } from "../core/groupBy.ts";
import { mean, standardDeviation } from "../numerics/statistics.ts";
import type { Repeatability, RunResult } from "../processing/dayResult.ts";
import { conditionMean } from "./conditionMean.ts";
import { barred } from "./refusedPoint.ts";

/**
 * What was set alike, in words; runs of one wheel with the same words are repeats of each other.
 *
 * @param plan   a row of the run sheet
 * @returns      e.g. "traction, 60 N, slip 0.2, 10 mm/s"
 * @source       common practice
 * @checked      tests/fitting/repeatability.test.ts
 */
export function conditionOf(plan: RunPlan): string {
  const parts = [
    plan.kind ?? "unknown kind",
    plan.setLoadN === null ? "" : `${round(plan.setLoadN)} N`,
    plan.setSlip === null ? "" : `slip ${round(plan.setSlip)}`,
    plan.setSpeedMps === null ? "" : `${round(1000 * plan.setSpeedMps)} mm/s`,
    (plan.pass ?? 1) === 1 ? "" : `pass ${plan.pass}`,
    plan.dropHeightM === null ? "" : `${round(1000 * plan.dropHeightM)} mm drop`,
    plan.plate === null ? "" : `${plan.plate.shape} ${round(1000 * plan.plate.widthM)} × ${round(1000 * plan.plate.lengthM)} mm`,
    plan.normalStressPa === null ? "" : `${round(plan.normalStressPa / 1000)} kPa`,
    plan.obstacle === null ? "" : `${plan.obstacle.edge} edge of ${round(1000 * plan.obstacle.heightM)} mm`,
    plan.footprint === null ? "" : `footprint on ${plan.footprint.ground} by ${plan.footprint.from}`,
    plan.contactAngleRad === null ? "" : `contact at ${round((180 * plan.contactAngleRad) / Math.PI)}°`,
  ];
  return parts.filter((part) => part !== "").join(", ");
}

const round = (value: number): number => Number(value.toPrecision(6));

/**
 * Scatter between repeats, per measure, pooled over the conditions that have repeats.
 *
 *   s_p = √( Σ (m_i − 1) s_i² / Σ (m_i − 1) )
 *
 * A condition is one wheel, kind and set point (load, slip, speed, pass, drop height, plate, normal stress, contact angle, obstacle, footprint), whatever the bed
 * and block: what preparing the bed again brings is inside. Absolute, in the measure's unit, though several conditions
 * may scatter differently: the conditions stand beside it. Rejected, excluded and unread runs do not count.
 *
 * @param runs   all runs of the day
 * @returns      one entry per measure; pooledSd is null where no condition has a repeat
 * @source       ISO 5725-2 (pooled repeatability variance); common practice
 * @checked      tests/fitting/repeatability.test.ts
 */
export function repeatabilityFrom(runs: readonly RunResult[]): Repeatability[] {
  const values = runs
    .filter((run) => barred(run) === null)
    .flatMap((run) => run.measures.filter((measure) => Number.isFinite(measure.estimate.value)).map((measure) => ({ run, measure })));
  return [...groupBy(values, ({ measure }) => measure.name)].map(([name, ofMeasure]): Repeatability => {
    const groups = groupBy(ofMeasure, ({ run }) => `${run.plan.wheel ?? ""}|${conditionOf(run.plan)}`);
    let squares = 0;
    let degreesOfFreedom = 0;
    const conditions = [...groups.values()].map((group) => {
      const numbers = group.map(({ measure }) => measure.estimate.value);
      const sd = numbers.length < 2 ? null : standardDeviation(numbers);
      if (sd !== null) {
        squares += (numbers.length - 1) * sd ** 2;
        degreesOfFreedom += numbers.length - 1;
      }
      const { plan } = (group[0] as (typeof group)[number]).run;
      return { wheel: plan.wheel ?? "", condition: conditionOf(plan), runs: group.map(({ run }) => run.plan.id), mean: mean(numbers), sd, estimates: group.map(({ measure }) => measure.estimate) };
    });
    const pooled = degreesOfFreedom === 0 ? null : { sd: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom };
    const unit: Unit = (ofMeasure[0] as (typeof ofMeasure)[number]).measure.estimate.unit;
    return { measure: name, unit, pooledSd: pooled?.sd ?? null, degreesOfFreedom, conditions: conditions.map(({ estimates, ...condition }) => ({ ...condition, estimate: conditionMean(estimates, pooled, name) })) };
  });
}
