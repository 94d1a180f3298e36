import { combine } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { studentTQuantile } from "../numerics/distributions.ts";
import type { RunResult } from "../processing/dayResult.ts";
import { barred, measureOf } from "./refusedPoint.ts";
import { conditionOf, repeatabilityFrom } from "./repeatability.ts";

/** One measure of a run beside the other runs of the same wheel and condition. */
export interface AgainstRepeats {
  readonly others: readonly { readonly run: string; readonly value: number }[];
  /** this run less the mean of the others, with the uncertainty of measuring alone: what they share cancels */
  readonly difference: Estimate;
  /** how far a repeat may lie from that mean by the day's own scatter (99 %); null = no other repeats show a scatter yet (equal to the last digit shows none) */
  readonly limit: number | null;
  /** beyond that limit; null where there is none */
  readonly apart: boolean | null;
}

/** A repeat this improbable is called apart: with four numbers on a card, 95 % would call every fifth card so. */
const coverage = 0.99;

/**
 * A run's value against the mean of its repeats, and how far the day's own scatter lets a repeat lie from it.
 *
 *   |x − x̄| ≤ t(ν) · s_r · √(1 + 1/n)
 *
 * s_r with ν degrees of freedom is how conditions of this size scatter on the day, `repeatabilityFrom`, this run left out: a
 * run that stands apart must not widen its own limit.
 *
 * @param run       the run looked at; its own verdict does not matter
 * @param runs      all runs so far; rejected, excluded and unread ones do not count
 * @param measure   name of the measure
 * @returns         null where the run has no such value or no repeat has
 * @source          prediction interval of one further observation, common practice; scatter as in ISO 5725-2
 * @checked         tests/fitting/againstRepeats.test.ts
 */
export function againstRepeats(run: RunResult, runs: readonly RunResult[], measure: string): AgainstRepeats | null {
  const own = finite(run, measure);
  if (own === null) return null;
  const rest = runs.filter((other) => other.plan.id !== run.plan.id && other.plan.kind === run.plan.kind && barred(other) === null);
  const repeats = rest.filter((other) => other.plan.wheel === run.plan.wheel && conditionOf(other.plan) === conditionOf(run.plan));
  const others = repeats.flatMap((other) => {
    const estimate = finite(other, measure);
    return estimate === null ? [] : [{ run: other.plan.id, value: estimate.value, estimate }];
  });
  const n = others.length;
  if (n === 0) return null;
  const difference = combine([own, ...others.map(({ estimate }) => estimate)], (x = Number.NaN, ...values) => x - values.reduce((sum, value) => sum + value, 0) / n, own.unit, `difference to the mean of ${n} repeat${n === 1 ? "" : "s"}`);
  const [repeatability] = repeatabilityFrom(rest.map((other) => ({ ...other, measures: other.measures.filter((candidate) => candidate.name === measure) })));
  const scatter = repeatability?.conditions.find(({ runs: [first] }) => repeats.some((other) => other.plan.id === first))?.scatter ?? null;
  const limit = scatter === null || scatter.sd === 0 ? null : studentTQuantile(0.5 + coverage / 2, scatter.degreesOfFreedom) * scatter.sd * Math.sqrt(1 + 1 / n);
  return { others: others.map(({ run: id, value }) => ({ run: id, value })), difference, limit, apart: limit === null ? null : Math.abs(difference.value) > limit };
}

function finite(run: RunResult, measure: string): Estimate | null {
  const estimate = measureOf(run, measure)?.estimate;
  return estimate === undefined || !Number.isFinite(estimate.value) ? null : estimate;
}
