import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { BudgetRow, Estimate } from "../../core/estimate.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import { effectiveSampleSize, lag1Autocorrelation } from "../../numerics/statistics.ts";
import type { Reading } from "./reading.ts";

/** Fewer stretches than this say nothing of a trend (common practice). */
const fewest = 8;

/**
 * Change of a quantity over a run, from a straight line through its stretches against the path travelled.
 *
 *   Δ = b · L          u(b) = s_b √(n / n_eff)
 *
 * Holds for a change that is steady enough for a line; neighbouring stretches may depend on each other, which the lag-1
 * autocorrelation of the residuals takes into account. What the stretches share as an offset does not touch a change; what
 * they share as a gain does, in proportion.
 *
 * @param reading  the quantity, stretch by stretch [its unit]
 * @param atM      path travelled to the middle of each stretch [m]
 * @param lengthM  path of the whole run [m]
 * @param gains    the reading's relative gain rows: cause and share
 * @param ends     what lets the run's end err against its start, such as its two zeros [the reading's unit]
 * @param run      the run's id, which names the scatter's budget row
 * @returns        the change from the run's start to its end [the reading's unit]; undetermined below eight stretches
 * @source         Draper & Smith, Applied Regression Analysis, chapter 1 (from memory); n_eff: see effectiveSampleSize
 * @checked        tests/processing/measures/changeOverRun.test.ts
 */
export function changeOverRun(reading: Reading, atM: readonly number[], lengthM: number, gains: readonly BudgetRow[], ends: readonly BudgetRow[], run: string): Estimate {
  const values = reading.perRevolution;
  const n = values.length;
  if (n < fewest) return undetermined(reading.unit, `a trend needs at least ${fewest} stretches of whole revolutions, the run has ${n}`);
  const line = lineFit(atM, values);
  const residuals = values.map((value, i) => value - line.intercept - line.slope * (atM[i] as number));
  const count = effectiveSampleSize(n, Math.min(0.9, Math.max(0, lag1Autocorrelation(residuals) + 1 / n)));
  const change = line.slope * lengthM;
  const scatter = Math.sqrt(line.covariance[1][1]) * lengthM * Math.sqrt(n / count);
  const rows: BudgetRow[] = [...gains.map((row) => ({ ...row, effect: row.effect * change })), ...ends, { cause: `scatter about the trend, ${run}`, effect: scatter, sharedBy: null, degreesOfFreedom: Math.max(1, count - 2) }];
  return estimateFrom(change, reading.unit, `straight line through ${n} stretches against the path, from the run's start to its end`, rows);
}
