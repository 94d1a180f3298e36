import { effectiveDraws, splitRhat } from "../numerics/chainDiagnostics.ts";
import { mirrored } from "../numerics/metropolis.ts";
import { seededRandom } from "../numerics/random.ts";
import { mean } from "../numerics/statistics.ts";
import { symmetricEigen } from "../numerics/symmetricEigen.ts";
import type { WheelState, NoEquilibrium } from "../models/wheelSoil.ts";
import { missKey } from "./wheelMisfit.ts";
import type { WheelObservation } from "./wheelObservations.ts";
import type { PosteriorChain } from "./wheelSoilChain.ts";
import { shareOf } from "./wheelSoilModel.ts";
import type { WheelModelToFit, WheelSoilFit } from "./wheelSoilFit.ts";

/** What belief and runs together leave of the parameters, as draws, and whether the chains agree. */
export interface Posterior {
  readonly chains: readonly PosteriorChain[];
  /** split R̂ of each parameter; the greatest should be below 1.01 */
  readonly rhat: readonly number[];
  /** effective number of draws of each parameter */
  readonly effective: readonly number[];
  /** share of the measured shares that fall inside the 95 % interval of their replicates */
  readonly insideReplicates: number;
  readonly converged: boolean;
  /** in plain words */
  readonly sentence: string;
}

const rhatLimit = 1.01;
const leastEffective = 400;
/** of the draws, for the predictive check */
const checkedDraws = 200;
/**
 * Chains put together: do they agree, and does the model foretell what it was fitted to?
 *
 * @param fit      the fit they belong to
 * @param toFit    its model
 * @param chains   from `posteriorChain`, of equal length, two or more
 * @returns        draws, R̂ and effective number of each parameter, the predictive check, and a sentence
 * @source         A. Gelman et al., Bayesian Data Analysis, 3rd ed., 11.4 and 6.3; R̂ below 1.01 and 400 effective draws: A. Vehtari et al., Bayesian Anal. 16 (2021) 667; from memory
 * @checked        tests/fitting/wheelSoilPosterior.test.ts
 */
export function joinChains(fit: WheelSoilFit, { model, beliefs }: WheelModelToFit, chains: readonly PosteriorChain[]): Posterior {
  const count = beliefs.length;
  const of = (j: number): number[][] => chains.map(({ draws }) => draws.map((draw) => draw[j] as number));
  const width = chains[0]?.draws[0]?.length ?? 0;
  const rhat = Array.from({ length: width }, (_, j) => splitRhat(of(j)));
  const effective = Array.from({ length: width }, (_, j) => effectiveDraws(of(j)));
  const worst = Math.max(...rhat);
  const fewest = Math.min(...effective);
  const converged = worst < rhatLimit && fewest >= leastEffective;
  const sentence = `${chains.length} chains of ${chains[0]?.draws.length ?? 0} draws: greatest R̂ ${worst.toFixed(3)}, at least ${Math.round(fewest)} effective draws${converged ? "" : "; they have not settled, run longer chains"}.`;
  return { chains, rhat, effective, insideReplicates: replicates(fit, model, chains, count), converged, sentence };
}

/**
 * Draws thinned evenly from all chains, with what the runs share (calibrations) moved at random in each: what forecasts are made from.
 *
 *   p = p_k + Σ √λᵢ eᵢ zᵢ,  z normal      λ, e: eigenvalues and vectors of the shared part of the fit's covariance      mirrored at the bounds
 *
 * @param fit      the fit the chains belong to
 * @param toFit    its bounds
 * @param chains   from `posteriorChain`
 * @param most     how many draws at most
 * @returns        rows as in `PosteriorChain`: parameters, then ln δ
 * @source         law of propagation by trials, JCGM 101:2008
 * @checked        tests/fitting/wheelSoilPosterior.test.ts
 */
export function thinnedDraws(fit: WheelSoilFit, { beliefs, lower, upper }: WheelModelToFit, chains: readonly PosteriorChain[], most: number): number[][] {
  const all = chains.flatMap(({ draws }) => draws);
  const count = Math.min(most, all.length);
  const directions = symmetricEigen(fit.covariance.map((row, i) => row.map((value, j) => value - ((fit.ownCovariance[i] as readonly number[])[j] as number))));
  const random = seededRandom(21);
  return Array.from({ length: count }, (_, k) => {
    const steps = directions.map(({ value }) => Math.sqrt(Math.max(0, value)) * random.normal());
    return (all[Math.floor((k * all.length) / count)] as readonly number[]).map((value, j) => (j < beliefs.length ? mirrored(value + directions.reduce((sum, { vector }, i) => sum + (steps[i] as number) * (vector[j] as number), 0), lower[j] as number, upper[j] as number) : value));
  });
}

/** Each datum against the spread of what the draws would measure in its place. */
function replicates(fit: WheelSoilFit, model: WheelModelToFit["model"], chains: readonly PosteriorChain[], count: number): number {
  const random = seededRandom(20);
  const present = Object.keys(fit.discrepancy);
  const every = chains.flatMap(({ draws }) => draws);
  const some = Array.from({ length: Math.min(checkedDraws, every.length) }, (_, k) => every[Math.floor((k * every.length) / Math.min(checkedDraws, every.length))] as readonly number[]);
  const states = new Map<WheelObservation, readonly (WheelState | NoEquilibrium)[]>();
  const statesOf = (observation: WheelObservation): readonly (WheelState | NoEquilibrium)[] => {
    const known = states.get(observation) ?? some.map((draw) => model(draw.slice(0, count), observation.wheel, observation.slip.value, observation.loadN));
    states.set(observation, known);
    return known;
  };
  return mean(fit.data.map(({ observation, quantity, measured, ownUncertainty }) => {
    const all = statesOf(observation);
    const made = some.map((draw, k) => {
      const state = all[k] as WheelState | NoEquilibrium;
      const missed = Math.exp(draw[count + present.indexOf(missKey(quantity, observation.wheel))] as number);
      return shareOf(state, quantity, observation.wheel) + Math.hypot(ownUncertainty, missed) * random.normal();
    }).filter(Number.isFinite).sort((a, b) => a - b);
    const at = (share: number): number => made[Math.round(share * (made.length - 1))] as number;
    return measured >= at(0.025) && measured <= at(0.975) ? 1 : 0;
  }));
}
