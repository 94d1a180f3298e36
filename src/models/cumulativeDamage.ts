import { UsageError } from "../core/errors.ts";

/** Cycles of one range. */
export interface CycleBlock {
  readonly range: number;
  readonly cycles: number;
}

/** Straight line of life over range on double logarithmic paper. */
export interface LifeLine {
  /** a range, unit of the blocks' ranges, > 0 */
  readonly atRange: number;
  /** cycles to failure at that range, > 0 */
  readonly cyclesToFailure: number;
  /** m, slope: ten times the range costs 10^m of the life; > 0 */
  readonly exponent: number;
  /** ranges below it do no damage; null = every range counts */
  readonly cutOffRange: number | null;
}

/**
 * Share of the fatigue life that load cycles use up, by linear summation.
 *
 *   D = Σ nᵢ / Nᵢ        Nᵢ = N₀ (Sᵢ / S₀)^(−m)
 *
 * Failure is expected at D = 1, with a scatter of about a factor of three either way; the order of loads is left out, and
 * so is the mean load.
 *
 * @param blocks   ranges with their numbers of cycles (half cycles as 0.5)
 * @param line     S₀, N₀, m and the cut-off
 * @returns        D [1]
 * @throws         UsageError when the line is not above zero
 * @source         A. Palmgren 1924, M. A. Miner 1945; scatter: common practice
 * @checked        tests/models/cumulativeDamage.test.ts
 */
export function cumulativeDamage(blocks: readonly CycleBlock[], line: LifeLine): number {
  const { atRange, cyclesToFailure, exponent, cutOffRange } = line;
  if (!(atRange > 0 && cyclesToFailure > 0 && exponent > 0)) throw new UsageError(`cumulativeDamage: expected range, cycles and exponent above 0, found ${atRange}, ${cyclesToFailure}, ${exponent}`);
  return blocks.reduce((sum, { range, cycles }) => (range < (cutOffRange ?? 0) ? sum : sum + (cycles / cyclesToFailure) * (range / atRange) ** exponent), 0);
}

/**
 * Range of constant amplitude that does the same damage in a chosen number of cycles.
 *
 *   S_eq = (Σ nᵢ Sᵢ^m / n)^(1/m)
 *
 * @param blocks     ranges with their numbers of cycles
 * @param exponent   m > 0
 * @param cycles     n > 0
 * @returns          S_eq, unit of the ranges
 * @throws           UsageError when m or n is not above zero
 * @source           follows from the linear sum; common practice
 * @checked          tests/models/cumulativeDamage.test.ts
 */
export function equivalentRange(blocks: readonly CycleBlock[], exponent: number, cycles: number): number {
  if (!(exponent > 0 && cycles > 0)) throw new UsageError(`equivalentRange: expected an exponent and a number of cycles above 0, found ${exponent} and ${cycles}`);
  return (blocks.reduce((sum, block) => sum + block.cycles * block.range ** exponent, 0) / cycles) ** (1 / exponent);
}
