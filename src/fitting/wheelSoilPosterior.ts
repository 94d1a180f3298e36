import { effectiveDraws, splitRhat } from "../numerics/chainDiagnostics.ts";
import { cholesky } from "../numerics/linearAlgebra.ts";
import { metropolisChain } from "../numerics/metropolis.ts";
import { seededRandom } from "../numerics/random.ts";
import { mean } from "../numerics/statistics.ts";
import { symmetricEigen } from "../numerics/symmetricEigen.ts";
import { shareOf } from "./wheelSoilModel.ts";
import { missKey } from "./wheelMisfit.ts";
import type { Belief, WheelModelToFit, WheelSoilFit } from "./wheelSoilFit.ts";

/** One chain of the posterior: parameters and the logarithms of what the model misses, row by row. */
export interface PosteriorChain {
  /** parameters in their order, then ln δ of each misfit in the fit's order */
  readonly draws: readonly (readonly number[])[];
  readonly acceptance: number;
}

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

/** belief of each δ: a few hundredths, within a factor of three either way */
const missedBelief: Belief = { mean: Math.log(0.015), sd: 1.1 };
const rhatLimit = 1.01;
const leastEffective = 400;
/** steps through the tangent model for each of the true one */
const tangentSteps = 80;
/** the fitted covariance is stretched by this where a chain starts, so that chains begin apart */
const spreadAtStart = 1.2;

/**
 * One Markov chain through the posterior of a wheel–soil fit.
 *
 *   ln p = −Σ [½ r²/(own² + δ_q²) + ½ ln(own² + δ_q²)] − Σ ½ ((pⱼ − mⱼ)/sⱼ)² − Σ ½ ((ln δ_q − m)/s)²        inside the bounds
 *
 * What runs share (calibrations) is not sampled: it is added to the forecasts as in the fit.
 *
 * @param fit      the converged fit: start and shape of the steps
 * @param toFit    its model
 * @param seed     each chain its own
 * @param steps    kept; half as many again are spent before on tuning
 * @returns        the chain
 * @throws         RangeError if the fit has no covariance
 * @source         A. Gelman et al., Bayesian Data Analysis, 3rd ed., ch. 11–12, from memory; belief of δ: common practice
 * @checked        tests/fitting/wheelSoilPosterior.test.ts
 */
export function posteriorChain(fit: WheelSoilFit, { model, beliefs, lower, upper }: WheelModelToFit, seed: number, steps: number): PosteriorChain {
  const count = beliefs.length;
  const present = Object.keys(fit.discrepancy);
  const observations = [...new Set(fit.data.map(({ observation }) => observation))];
  /** with the shares that a model predicts, or with their tangents at the fit, which cost next to nothing */
  const posterior = (sharesAt: (p: readonly number[]) => readonly number[]) => (x: readonly number[]): number => {
    let sum = 0;
    for (let j = 0; j < count; j++) {
      const value = x[j] as number;
      if (value < (lower[j] as number) || value > (upper[j] as number)) return -Infinity;
      sum -= 0.5 * ((value - (beliefs[j] as Belief).mean) / (beliefs[j] as Belief).sd) ** 2;
    }
    const squares = present.map((_, k) => Math.exp(2 * (x[count + k] as number)));
    for (let k = 0; k < present.length; k++) sum -= 0.5 * (((x[count + k] as number) - missedBelief.mean) / missedBelief.sd) ** 2;
    const shares = sharesAt(x);
    for (let i = 0; i < data.length; i++) {
      const { measured, own, kind } = data[i] as (typeof data)[number];
      const variance = own + (squares[kind] as number);
      sum -= 0.5 * ((measured - (shares[i] as number)) ** 2 / variance + Math.log(variance));
    }
    return Number.isNaN(sum) ? -Infinity : sum;
  };
  const data = fit.data.map(({ observation, quantity, measured, ownUncertainty }) => ({ measured, own: ownUncertainty ** 2, kind: present.indexOf(missKey(quantity, observation.wheel)) }));
  const logDensity = posterior((x) => {
    const p = x.slice(0, count);
    const states = new Map(observations.map((observation) => [observation, model(p, observation.wheel, observation.slip.value, observation.loadN)]));
    return fit.data.map(({ observation, quantity }) => shareOf(states.get(observation) ?? { reason: "" }, quantity, observation.wheel));
  });
  const tangent = posterior((x) => fit.data.map(({ predicted }, i) => {
    const slopes = fit.jacobian[i] as readonly number[];
    let share = predicted;
    for (let j = 0; j < count; j++) share += (slopes[j] as number) * ((x[j] as number) - (fit.fitted[j] as number));
    return share;
  }));
  const random = seededRandom(seed);
  // a misfit well above the runs' own uncertainty is known to a few parts in ten; one below it may be anything smaller
  const missedVariance = (k: number): number => {
    const mine = fit.data.filter((datum) => missKey(datum.quantity, datum.observation.wheel) === present[k]);
    return (fit.discrepancy[present[k] as string] as number) > mean(mine.map(({ ownUncertainty }) => ownUncertainty)) ? 1 / mine.length : 0.5;
  };
  const centre = [...fit.fitted, ...present.map((key) => Math.log(Math.max(fit.discrepancy[key] as number, 0.003)))];
  const covariance = centre.map((_, i) => centre.map((__, j) => (i < count && j < count ? ((fit.ownCovariance[i] as readonly number[])[j] as number) : i === j ? missedVariance(i - count) : 0)));
  const factor = cholesky(covariance);
  if (factor === null) throw new RangeError("posteriorChain: expected a fit with a positive definite covariance");
  // Parameters at a bound would start outside it: drawn until one is inside.
  let start = centre;
  for (let attempt = 0; attempt < 200; attempt++) {
    const z = centre.map(() => random.normal() * (attempt < 100 ? 1 : 0.1));
    const drawn = centre.map((value, i) => value + spreadAtStart * (factor[i] as readonly number[]).reduce((sum, entry, j) => (j <= i ? sum + entry * (z[j] as number) : sum), 0));
    if (logDensity(drawn) > -Infinity) {
      start = drawn;
      break;
    }
  }
  const fold = (x: readonly number[]): number[] => x.map((value, j) => (j < count ? mirrored(value, lower[j] as number, upper[j] as number) : value));
  return metropolisChain(logDensity, { start, covariance, steps, warmUp: Math.ceil(steps / 2), fold, likeness: { logDensity: tangent, steps: tangentSteps }, random });
}

/** A value beyond a bound, as a mirror there shows it. */
function mirrored(value: number, low: number, high: number): number {
  const inside = value < low ? 2 * low - value : value > high ? 2 * high - value : value;
  return Math.min(high, Math.max(low, inside));
}

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
  const all = chains.flatMap(({ draws }) => draws);
  const some = Array.from({ length: Math.min(200, all.length) }, (_, k) => all[Math.floor((k * all.length) / Math.min(200, all.length))] as readonly number[]);
  return mean(fit.data.map(({ observation, quantity, measured, ownUncertainty }) => {
    const made = some.map((draw) => {
      const state = model(draw.slice(0, count), observation.wheel, observation.slip.value, observation.loadN);
      const missed = Math.exp(draw[count + present.indexOf(missKey(quantity, observation.wheel))] as number);
      return shareOf(state, quantity, observation.wheel) + Math.hypot(ownUncertainty, missed) * random.normal();
    }).filter(Number.isFinite).sort((a, b) => a - b);
    const at = (share: number): number => made[Math.round(share * (made.length - 1))] as number;
    return measured >= at(0.025) && measured <= at(0.975) ? 1 : 0;
  }));
}
