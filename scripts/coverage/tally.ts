import type { Estimate } from "../../src/core/estimate.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";
import { expandedUncertainty } from "../../src/processing/expandedUncertainty.ts";

/** One estimate of a made day against its truth. */
export interface Trial {
  readonly name: string;
  readonly where: string;
  readonly error: number;
  readonly standardUncertainty: number;
  readonly inside: boolean;
}

/** What one made day, or many of them, gave. */
export interface Tally {
  readonly trials: Trial[];
  /** estimates without a value or an uncertainty, with the reason */
  readonly missing: string[];
  /** runs without a fault that were not "go" */
  readonly heldBack: string[];
  /** errors that must be small in the mean, whatever their interval */
  readonly biases: { readonly name: string; readonly error: number }[];
}

export const tally = (): Tally => ({ trials: [], missing: [], heldBack: [], biases: [] });

/** Many days' tallies as one, in order. */
export function together(days: readonly Tally[]): Tally {
  return { trials: days.flatMap((day) => day.trials), missing: days.flatMap((day) => day.missing), heldBack: days.flatMap((day) => day.heldBack), biases: days.flatMap((day) => day.biases) };
}

/** Counts whether the truth lies in the estimate's 95 % interval. */
export function note(into: Tally, name: string, estimate: Estimate | undefined, truth: number, where: string): void {
  const expanded = estimate === undefined ? null : expandedUncertainty(estimate);
  if (estimate === undefined || expanded === null) {
    into.missing.push(`${name}, ${where}: ${estimate?.method ?? "not measured"}`);
    return;
  }
  const error = estimate.value - truth;
  into.trials.push({ name, where, error, standardUncertainty: estimate.standardUncertainty as number, inside: Math.abs(error) <= expanded.half });
}

/** Notes the runs that the day holds back though nothing is wrong with them. */
export function noteHeldBack(into: Tally, day: DayResult, where: string): void {
  for (const run of day.runs) if (run.verdict !== "go") into.heldBack.push(`${where}, ${run.plan.id}: ${run.reasons[0]}`);
}

export function measured(day: DayResult, run: string, name: string): Estimate | undefined {
  return day.runs.find((candidate) => candidate.plan.id === run)?.measures.find((measure) => measure.name === name)?.estimate;
}

export interface Coverage {
  readonly count: number;
  readonly inside: number;
  readonly meanError: number;
  readonly meanZ: number;
  readonly rmsZ: number;
}

export function coverage(into: Tally, name: string): Coverage {
  const trials = into.trials.filter((trial) => trial.name === name);
  const z = trials.map((trial) => trial.error / trial.standardUncertainty);
  return { count: trials.length, inside: trials.filter((trial) => trial.inside).length, meanError: average(trials.map((trial) => trial.error)), meanZ: average(z), rmsZ: Math.sqrt(average(z.map((value) => value ** 2))) };
}

export function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** ln Γ(n + 1) of a whole number. */
function logFactorial(n: number): number {
  let sum = 0;
  for (let i = 2; i <= n; i++) sum += Math.log(i);
  return sum;
}

/** Fewest and most successes that n trials of chance p give, but for `out` on either side. */
export function binomialBand(n: number, p: number, out: number): readonly [number, number] {
  const chance = Array.from({ length: n + 1 }, (_, k) => Math.exp(logFactorial(n) - logFactorial(k) - logFactorial(n - k) + k * Math.log(p) + (n - k) * Math.log(1 - p)));
  let low = 0;
  for (let below = chance[0] as number; below <= out; below += chance[++low] as number);
  let high = n;
  for (let above = chance[n] as number; above <= out; above += chance[--high] as number);
  return [low, high];
}

/** In words, for failures and for a look at all measures. */
export function sentence(into: Tally, name: string): string {
  const { count, inside, meanError, meanZ, rmsZ } = coverage(into, name);
  return `${name}: ${inside} of ${count} intervals hold the truth (${((100 * inside) / count).toFixed(1)} %), mean error ${meanError.toExponential(2)}, mean z ${meanZ.toFixed(2)}, rms z ${rmsZ.toFixed(2)}`;
}
