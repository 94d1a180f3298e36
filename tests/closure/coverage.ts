import { expect } from "vitest";
import type { Estimate } from "../../src/core/estimate.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";

/** One estimate against its truth. */
interface Trial {
  readonly error: number;
  readonly standardUncertainty: number;
  readonly inside: boolean;
}

/** Trials by measure, over many seeds. */
export interface Tally {
  readonly trials: Map<string, Trial[]>;
  /** estimates without a value or an uncertainty, with the reason */
  readonly missing: string[];
}

export const tally = (): Tally => ({ trials: new Map(), missing: [] });

/** Counts whether the truth lies in the estimate's 95 % interval. */
export function note(into: Tally, name: string, estimate: Estimate | undefined, truth: number, where: string): void {
  const u = estimate?.standardUncertainty;
  if (estimate === undefined || u === null || u === undefined || !Number.isFinite(estimate.value)) {
    into.missing.push(`${name}, ${where}: ${estimate?.method ?? "not measured"}`);
    return;
  }
  const error = estimate.value - truth;
  const trials = into.trials.get(name) ?? [];
  trials.push({ error, standardUncertainty: u, inside: Math.abs(error) <= studentTQuantile(0.975, estimate.degreesOfFreedom) * u });
  into.trials.set(name, trials);
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
  const trials = into.trials.get(name) ?? [];
  const z = trials.map((trial) => trial.error / trial.standardUncertainty);
  const average = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  return { count: trials.length, inside: trials.filter((trial) => trial.inside).length, meanError: average(trials.map((trial) => trial.error)), meanZ: average(z), rmsZ: Math.sqrt(average(z.map((value) => value ** 2))) };
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

/** Chance that a sound measure falls out of the band on one side. */
export const bandOut = 0.0005;

/**
 * The truth lies in the 95 % interval as often as stated: within the band that 999 of 1000 sound measures keep.
 * `wide`: why the interval is known to be wider than its errors; then only the lower end is asked for, and that it is wider.
 */
export function holds(into: Tally, name: string, wide?: string): void {
  const { count, inside } = coverage(into, name);
  expect(count, `${name}: trials; not determined were ${into.missing.filter((line) => line.startsWith(`${name},`)).slice(0, 3).join("; ")}`).toBeGreaterThanOrEqual(200);
  const [low, high] = binomialBand(count, 0.95, bandOut);
  expect(inside, `${sentence(into, name)}; expected ${low} … ${high}`).toBeGreaterThanOrEqual(low);
  if (wide === undefined) expect(inside, `${sentence(into, name)}; expected ${low} … ${high}: the interval is too wide`).toBeLessThanOrEqual(high);
  else expect(inside, `${sentence(into, name)} is declared as too wide (${wide}) but is not: remove the declaration`).toBeGreaterThan(0.95 * count);
}
