import type { RunPlan } from "../campaign/campaign.ts";
import type { Unit } from "../core/units.ts";
import { groupBy } from "../core/groupBy.ts";
import { mean, standardDeviation } from "../numerics/statistics.ts";
import { varianceByLevel } from "../numerics/varianceByLevel.ts";
import type { Repeatability, RunResult } from "../processing/dayResult.ts";
import type { RepeatScatter } from "../processing/repeatScatter.ts";
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

/** Conditions with repeats from which on their scatter is asked whether it changes with the value. */
const fewestForLaw = 4;

/**
 * Scatter between repeats, per measure, over the conditions that have repeats.
 *
 *   s_p = √( Σ (m_i − 1) s_i² / Σ (m_i − 1) )
 *   from four conditions on: ln s² = a + b x,  x = x̄_i, or ln |x̄_i| where the values have one sign and that is likelier
 *
 * A condition is one wheel, kind and set point (load, slip, speed, pass, drop height, plate, normal stress, contact angle, obstacle, footprint), whatever the bed
 * and block: what preparing the bed again brings is inside. Absolute, in the measure's unit. Few repeats cannot show by a
 * test that conditions scatter differently, so no test decides: where there are conditions enough, each is given the scatter
 * of its size, which costs a second constant; with fewer all share s_p. Rejected, excluded and unread runs do not count.
 *
 * @param runs   all runs of the day
 * @returns      one entry per measure; pooledSd is null where no condition has a repeat
 * @source       ISO 5725-2 (pooled repeatability variance, and its relation to the level); `varianceByLevel`
 * @checked      tests/fitting/repeatability.test.ts
 */
export function repeatabilityFrom(runs: readonly RunResult[]): Repeatability[] {
  const values = runs
    .filter((run) => barred(run) === null)
    .flatMap((run) => run.measures.filter((measure) => Number.isFinite(measure.estimate.value)).map((measure) => ({ run, measure })));
  return [...groupBy(values, ({ measure }) => measure.name)].map(([name, ofMeasure]): Repeatability => {
    const groups = groupBy(ofMeasure, ({ run }) => `${run.plan.wheel ?? ""}|${conditionOf(run.plan)}`);
    const conditions = [...groups.values()].map((group) => {
      const numbers = group.map(({ measure }) => measure.estimate.value);
      const { plan } = (group[0] as (typeof group)[number]).run;
      return { wheel: plan.wheel ?? "", condition: conditionOf(plan), runs: group.map(({ run }) => run.plan.id), mean: mean(numbers), sd: numbers.length < 2 ? null : standardDeviation(numbers), estimates: group.map(({ measure }) => measure.estimate) };
    });
    const { pooled, at } = scatterOver(conditions);
    const unit: Unit = (ofMeasure[0] as (typeof ofMeasure)[number]).measure.estimate.unit;
    return {
      measure: name, unit, pooledSd: pooled?.sd ?? null, degreesOfFreedom: pooled?.degreesOfFreedom ?? 0,
      conditions: conditions.map(({ estimates, ...condition }) => ({ ...condition, scatter: at(condition.mean), estimate: conditionMean(estimates, at(condition.mean), name) })),
    };
  });
}

/** The scatter pooled over all conditions, and at a value; null without any repeat. */
function scatterOver(conditions: readonly { readonly runs: readonly string[]; readonly mean: number; readonly sd: number | null }[]): { readonly pooled: RepeatScatter | null; readonly at: (value: number) => RepeatScatter | null } {
  const repeated = conditions.flatMap(({ runs, mean: value, sd }) => (sd === null ? [] : [{ value, variance: sd ** 2, degreesOfFreedom: runs.length - 1 }]));
  const degreesOfFreedom = repeated.reduce((sum, one) => sum + one.degreesOfFreedom, 0);
  if (degreesOfFreedom === 0) return { pooled: null, at: () => null };
  const pooled = { sd: Math.sqrt(repeated.reduce((sum, one) => sum + one.degreesOfFreedom * one.variance, 0) / degreesOfFreedom), degreesOfFreedom };
  const values = conditions.map(({ mean: value }) => value);
  const oneSign = values.every((value) => value > 0) || values.every((value) => value < 0);
  const levels = [(value: number): number => value, ...(oneSign ? [(value: number): number => Math.log(Math.abs(value))] : [])];
  const laws = levels.flatMap((levelOf) => {
    const law = repeated.length < fewestForLaw ? null : varianceByLevel(repeated.map((one) => ({ ...one, level: levelOf(one.value) })));
    return law === null ? [] : [{ ...law, levelOf }];
  });
  const [likeliest] = laws.sort((a, b) => b.logLikelihood - a.logLikelihood);
  return { pooled, at: (value) => {
    if (likeliest === undefined) return pooled;
    const { variance, degreesOfFreedom: behind } = likeliest.at(likeliest.levelOf(value));
    return { sd: Math.sqrt(variance), degreesOfFreedom: behind };
  } };
}
