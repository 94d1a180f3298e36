import { expect } from "vitest";
import { binomialBand, coverage, sentence, together } from "../../scripts/coverage/tally.ts";
import type { Tally } from "../../scripts/coverage/tally.ts";

/** Days of one kind, one after the other; `npm run coverage` makes more of them on two threads. */
export async function manyDays(oneDay: (seed: number) => Tally | Promise<Tally>, count: number): Promise<Tally> {
  const made: Tally[] = [];
  for (let seed = 1; seed <= count; seed++) made.push(await oneDay(seed));
  return together(made);
}

/** Chance that a sound measure falls out of the band on one side. */
const bandOut = 0.0005;

/** The truth lies in the 95 % interval as often as stated: within the band that 999 of 1000 sound measures keep. */
export function holds(into: Tally, name: string): void {
  const { count, inside } = coverage(into, name);
  expect(count, `${name}: trials; not determined were ${into.missing.filter((line) => line.startsWith(`${name},`)).slice(0, 3).join("; ")}`).toBeGreaterThanOrEqual(200);
  const [low, high] = binomialBand(count, 0.95, bandOut);
  const words = `${sentence(into, name)}; expected ${low} … ${high}`;
  expect(inside, words).toBeGreaterThanOrEqual(low);
  expect(inside, `${words}: the interval is too wide`).toBeLessThanOrEqual(high);
}

/** Names in order, each once. */
export function namesOf(into: Tally): string[] {
  return [...new Set(into.trials.map((trial) => trial.name))].sort();
}
