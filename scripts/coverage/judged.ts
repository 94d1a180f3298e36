import { binomialBand, coverage } from "./tally.ts";
import type { Coverage, Tally } from "./tally.ts";

/** Shares of intervals that hold the truth which pass for 95 %. */
export const passing = [0.93, 0.97] as const;

export interface JudgedRow extends Coverage {
  readonly name: string;
  readonly share: number;
  /** where the share of sound intervals lies, but for 2.5 % of samples on either side */
  readonly band: readonly [number, number];
  /** a yes or no has no doubt: it must be right */
  readonly ok: boolean;
}

/** Every measure of a tally, in order of first appearance. */
export function judged(counted: Tally): JudgedRow[] {
  return [...new Set(counted.trials.map((trial) => trial.name))].map((name) => {
    const found = coverage(counted, name);
    const share = found.inside / found.count;
    const [low, high] = binomialBand(found.count, 0.95, 0.025);
    return { name, ...found, share, band: [low / found.count, high / found.count], ok: found.rmsZ > 0 ? share >= passing[0] && share <= passing[1] : share === 1 };
  });
}
