import { UsageError } from "../core/errors.ts";

/** A claim: this share of wheels outlives one mission, said with this confidence. */
export interface LifeClaim {
  readonly reliability: number;
  readonly confidence: number;
}

const open = (value: number): boolean => value > 0 && value < 1;

/**
 * Reliability that wheels without a failure demonstrate.
 *
 *   R = (1 − C)^(1 / Σ Lᵢ^β)
 *
 * Lᵢ: distance of each wheel in mission lengths. The Weibull shape β is assumed, not learned: without a failure the test
 * says nothing about it.
 *
 * @param missions     Lᵢ, each > 0; at least one
 * @param shape        β > 0
 * @param confidence   C, 0 < C < 1
 * @returns            R [1], a lower limit
 * @throws             UsageError when an input is out of its range
 * @source             follows from the binomial with zero failures and a Weibull life; textbook, from memory
 * @checked            tests/models/zeroFailure.test.ts
 */
export function demonstratedReliability(missions: readonly number[], shape: number, confidence: number): number {
  if (!(missions.length > 0 && missions.every((life) => life > 0) && shape > 0 && open(confidence))) throw new UsageError("demonstratedReliability: expected lives and shape above 0 and a confidence between 0 and 1");
  return (1 - confidence) ** (1 / missions.reduce((sum, life) => sum + life ** shape, 0));
}

/**
 * Wheels to be run without a failure for a claim.
 *
 *   n = ⌈ln(1 − C) / (L^β ln R)⌉
 *
 * @param claim      R and C, between 0 and 1
 * @param missions   L, distance of each wheel in mission lengths, > 0
 * @param shape      β, assumed, > 0
 * @returns          n, a whole number
 * @throws           UsageError when an input is out of its range
 * @source           as `demonstratedReliability`
 * @checked          tests/models/zeroFailure.test.ts
 */
export function wheelsNeeded(claim: LifeClaim, missions: number, shape: number): number {
  requireClaim(claim);
  if (!(missions > 0 && shape > 0)) throw new UsageError("wheelsNeeded: expected lives and shape above 0");
  // rounding must not ask for one more where the quotient is whole
  return Math.ceil(Math.log(1 - claim.confidence) / (missions ** shape * Math.log(claim.reliability)) - 1e-9);
}

/**
 * Mission lengths each of n wheels has to run without a failure for a claim.
 *
 *   L = (ln(1 − C) / (n ln R))^(1/β)
 *
 * @param claim    R and C, between 0 and 1
 * @param wheels   n, a whole number ≥ 1
 * @param shape    β, assumed, > 0
 * @returns        L [mission lengths]
 * @throws         UsageError when an input is out of its range
 * @source         as `demonstratedReliability`
 * @checked        tests/models/zeroFailure.test.ts
 */
export function missionsNeeded(claim: LifeClaim, wheels: number, shape: number): number {
  requireClaim(claim);
  if (!(Number.isInteger(wheels) && wheels >= 1 && shape > 0)) throw new UsageError("missionsNeeded: expected a whole number of wheels and a shape above 0");
  return (Math.log(1 - claim.confidence) / (wheels * Math.log(claim.reliability))) ** (1 / shape);
}

function requireClaim({ reliability, confidence }: LifeClaim): void {
  if (!(open(reliability) && open(confidence))) throw new UsageError(`expected a reliability and a confidence between 0 and 1, found ${reliability} and ${confidence}`);
}
