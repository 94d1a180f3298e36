import type { VectorFit } from "../numerics/vectorFit.ts";
import { whitening } from "../numerics/whitening.ts";
import type { Whitening } from "../numerics/whitening.ts";
import { sharedEffects, unsharedUncertainty } from "./sharedEffects.ts";
import { firstMisfit, misfitChange, misfitOf, misfitWhitening, outlierWeights, wholeMisfit } from "./wheelMisfit.ts";
import type { Misfit } from "./wheelMisfit.ts";
import type { WheelObservation, WheelQuantity } from "./wheelObservations.ts";
import { wheelShares } from "./wheelShares.ts";
import type { WheelShares } from "./wheelShares.ts";
import type { FittedModel } from "./wheelSoilModel.ts";
import { whitenedFit, wheelRows } from "./whitenedFit.ts";
import type { WheelRow } from "./whitenedFit.ts";
import type { SoilParameter } from "./wheelSoilParameters.ts";

/** What is believed of a parameter before the wheel runs. */
export type Belief = Pick<SoilParameter["prior"], "mean" | "sd">;

/** A model with its parameters and what is believed of them. */
export interface WheelModelToFit {
  readonly model: FittedModel;
  readonly beliefs: readonly Belief[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  /** where to start from, each a whole vector; the best end counts. One alone is taken to lie near the answer: no other is looked for */
  readonly starts: readonly (readonly number[])[];
  /** points far from the model count less; left out: all count as their uncertainty says */
  readonly robust?: boolean | undefined;
}

/** One measured share of one run and what the fit makes of it. */
export interface WheelDatum {
  readonly observation: WheelObservation;
  readonly quantity: WheelQuantity;
  readonly measured: number;
  readonly predicted: number;
  /** what the run itself leaves open, slip included, without what runs share and without the model's own error */
  readonly ownUncertainty: number;
  /** what a robust fit lets it count; 1 in any other */
  readonly weight: number;
}

/** A wheel–soil model fitted to wheel runs. */
export interface WheelSoilFit {
  readonly fitted: readonly number[];
  /** of `fitted`: data, beliefs and what runs share */
  readonly covariance: readonly (readonly number[])[];
  /** the part of it that more runs would lower */
  readonly ownCovariance: readonly (readonly number[])[];
  /** standard deviation of what the model misses beyond the runs' own uncertainties, a share, by `missKey`: of a further run, on another bed */
  readonly discrepancy: Readonly<Record<string, number>>;
  /** its parts: from datum to datum, from bed to bed, from wheel to wheel */
  readonly misfit: Misfit;
  readonly data: readonly WheelDatum[];
  /** ∂share/∂parameter, one row a datum */
  readonly jacobian: readonly (readonly number[])[];
  readonly converged: boolean;
  readonly atLimit: readonly boolean[];
  /** how many starts ended at the best */
  readonly agreeingStarts: number;
  readonly reason: string;
}

const passes = 12;
/** steps of a start, and of a pass: the weights change after it anyway */
const roughDoubt = 0.05;
const roughSteps = 25;
const passSteps = 3;
const lastSteps = 200;
/** change of the misfit below which the passes end, as a share */
const settled = 0.02;
/** no run is known better than this share: keeps one point from owning the fit */
const floor = 1e-4;

/**
 * Fits a wheel–soil model to the runs' pull, torque and sinkage together.
 *
 *   minimise (y − f(p))ᵀ V⁻¹ (y − f(p)) + Σ ((pⱼ − mⱼ)/sⱼ)²
 *   V = diag(own² + (∂f/∂s · u_s)² + δ²) + σ_bed² within each bed + σ_wheel² within each wheel, for each quantity by itself
 *   δ, σ_bed, σ_wheel: what the model misses, by restricted maximum likelihood from the residuals
 *   C = (JᵀV⁻¹J + diag(1/s²))⁻¹ + Σ over shared causes of shift shiftᵀ
 *
 * A model is never exact; without δ the constants would claim more than the misfit allows, and bands would not hold the
 * next measurement. What a bed or a wheel deviates by counts once a bed or wheel, however many runs it saw.
 *
 * @param observations   at least one datum
 * @param toFit          model, beliefs, bounds, starts
 * @returns              the fit; `converged` false with the reason when no start gave an answer
 * @source               M. C. Kennedy and A. O'Hagan, J. R. Stat. Soc. B 63 (2001) 425, for the discrepancy, from memory; beds and wheels as random intercepts: `varianceComponents`
 * @checked              tests/fitting/wheelSoilFit.test.ts
 */
export function wheelSoilFit(observations: readonly WheelObservation[], toFit: WheelModelToFit): WheelSoilFit {
  const rows = wheelRows(observations);
  const rough = (some: readonly WheelRow[], start: readonly number[]): VectorFit => whitenedFit(wheelShares(some, toFit), toFit, start, whitening(some.map((_, i) => ({ indices: [i], covariance: [[roughDoubt ** 2]] }))), roughSteps);
  const shares = wheelShares(rows, toFit);
  const ends = toFit.starts.map((start) => rough(rows, start)).filter((end) => Number.isFinite(end.sumOfSquares));
  const best = ends.reduce<VectorFit | null>((least, end) => (least === null || end.sumOfSquares < least.sumOfSquares ? end : least), null);
  if (best === null) return nothing(toFit, "the model has no answer at any start");
  const agreeingStarts = ends.filter((end) => end.sumOfSquares < best.sumOfSquares * 1.01 + 1e-3).length;
  // Where a model describes one kind of wheel only, the kinds pull apart: each is asked alone too, and the likelier end counts.
  const kinds = [true, false].map((rigid) => rows.filter(({ observation }) => (observation.wheel.curve === null) === rigid)).filter((some) => some.length > 0);
  const apart = kinds.length > 1 && toFit.starts.length > 1;
  const from = [best.parameters, ...(apart ? kinds.map((some) => rough(some, best.parameters).parameters) : [])];
  const settledFits = from.map((start) => settle(shares, toFit, start, start !== best.parameters));
  const { fit, own, weights, misfit, whiten } = settledFits.reduce((likeliest, other) => (other.logLikelihood > likeliest.logLikelihood ? other : likeliest));
  const shifts = sharedShifts(rows, fit, whiten, shares.bySlip(fit.parameters));
  return {
    fitted: fit.parameters,
    ownCovariance: fit.covariance,
    covariance: fit.covariance.map((row, i) => row.map((value, j) => value + shifts.reduce((sum, shift) => sum + (shift[i] as number) * (shift[j] as number), 0))),
    discrepancy: wholeMisfit(rows, misfit),
    misfit,
    data: rows.map(({ observation, quantity, estimate }, i) => ({ observation, quantity, measured: estimate.value, predicted: estimate.value - (fit.residuals[i] as number), ownUncertainty: own[i] as number, weight: weights[i] as number })),
    jacobian: fit.jacobian,
    converged: fit.converged,
    atLimit: fit.atLimit,
    agreeingStarts,
    reason: fit.reason,
  };
}

interface Settled {
  readonly fit: VectorFit;
  readonly own: readonly number[];
  readonly weights: readonly number[];
  readonly misfit: Misfit;
  readonly whiten: Whitening;
  readonly logLikelihood: number;
}

/** From a start to where parameters and misfit agree. `apart`: begin with the misfit that stands at the start, not with an equal one. */
function settle(shares: WheelShares, toFit: WheelModelToFit, start: readonly number[], apart: boolean): Settled {
  const { rows } = shares;
  let own = ownDoubts(shares, start);
  let weights = rows.map(() => 1);
  let misfit = firstMisfit(rows);
  const next = (at: readonly number[], steps: number): VectorFit => whitenedFit(shares, toFit, at, misfitWhitening(rows, own, weights, misfit), steps);
  // no step is taken: the misfit at the start itself
  if (apart) misfit = misfitOf(rows, next(start, 0), own, weights, misfit);
  let fit = next(start, passSteps);
  for (let pass = 0; pass < passes; pass++) {
    own = ownDoubts(shares, fit.parameters);
    if (toFit.robust === true) weights = outlierWeights(rows, fit.residuals, own, weights, misfit);
    const before = misfit;
    misfit = misfitOf(rows, fit, own, weights, misfit);
    fit = next(fit.parameters, passSteps);
    if (misfitChange(before, misfit) < settled) break;
  }
  const whiten = misfitWhitening(rows, own, weights, misfit);
  fit = whitenedFit(shares, toFit, fit.parameters, whiten, lastSteps);
  return { fit, own, weights, misfit, whiten, logLikelihood: -0.5 * (fit.sumOfSquares + whiten.logDeterminant) };
}

function ownDoubts({ rows, bySlip }: WheelShares, p: readonly number[]): number[] {
  const slopes = bySlip(p);
  return rows.map(({ observation, estimate }, i) => Math.max(floor, Math.hypot(unsharedUncertainty(estimate), (slopes[i] as number) * unsharedUncertainty(observation.slip))));
}

/** What each shared cause does to the parameters when it moves by one standard uncertainty: C Jᵀ V⁻¹ · moved data. */
function sharedShifts(rows: readonly WheelRow[], fit: VectorFit, { whiten }: Whitening, bySlip: readonly number[]): number[][] {
  const onData = sharedEffects(rows.map(({ estimate }) => estimate));
  const onSlip = sharedEffects(rows.map(({ observation }) => observation.slip));
  const causes = new Set([...onData, ...onSlip].map(({ cause }) => cause));
  const columns = fit.parameters.map((_, j) => whiten(fit.jacobian.map((row) => row[j] as number)));
  return [...causes].map((cause) => {
    const data = onData.find((one) => one.cause === cause)?.effects;
    const slip = onSlip.find((one) => one.cause === cause)?.effects;
    const moved = whiten(rows.map((_, i) => (data?.[i] ?? 0) - (bySlip[i] as number) * (slip?.[i] ?? 0)));
    const pulled = columns.map((column) => column.reduce((sum, value, i) => sum + value * (moved[i] as number), 0));
    return fit.covariance.map((row) => row.reduce((sum, value, j) => sum + value * (pulled[j] as number), 0));
  });
}

function nothing({ beliefs }: WheelModelToFit, reason: string): WheelSoilFit {
  const blank = beliefs.map(() => beliefs.map(() => Number.NaN));
  return { fitted: beliefs.map(() => Number.NaN), covariance: blank, ownCovariance: blank, discrepancy: {}, misfit: firstMisfit([]), data: [], jacobian: [], converged: false, atLimit: beliefs.map(() => false), agreeingStarts: 0, reason };
}
