import { vectorFit } from "../numerics/vectorFit.ts";
import type { VectorFit } from "../numerics/vectorFit.ts";
import { sharedEffects, unsharedUncertainty } from "./sharedEffects.ts";
import { quantities } from "./wheelObservations.ts";
import type { WheelObservation, WheelQuantity, WheelSubject } from "./wheelObservations.ts";
import { shareOf } from "./wheelSoilModel.ts";
import type { FittedModel } from "./wheelSoilModel.ts";
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
}

/** One measured share of one run and what the fit makes of it. */
export interface WheelDatum {
  readonly observation: WheelObservation;
  readonly quantity: WheelQuantity;
  readonly measured: number;
  readonly predicted: number;
  /** what the run itself leaves open, slip included, without what runs share and without the model's own error */
  readonly ownUncertainty: number;
}

/** A wheel–soil model fitted to wheel runs. */
export interface WheelSoilFit {
  readonly fitted: readonly number[];
  /** of `fitted`: data, beliefs and what runs share */
  readonly covariance: readonly (readonly number[])[];
  /** the part of it that more runs would lower */
  readonly ownCovariance: readonly (readonly number[])[];
  /** standard deviation of what the model misses beyond the runs' own uncertainties, a share, by `missKey` */
  readonly discrepancy: Readonly<Record<string, number>>;
  readonly data: readonly WheelDatum[];
  /** ∂share/∂parameter, one row a datum */
  readonly jacobian: readonly (readonly number[])[];
  readonly converged: boolean;
  readonly atLimit: readonly boolean[];
  /** how many starts ended at the best */
  readonly agreeingStarts: number;
  readonly reason: string;
}

/**
 * Names the misfit a datum belongs to: misfits are judged apart by quantity, and for rigid and flexible wheels, since a
 * model may describe the one and not the other.
 *
 * @param quantity   pull, torque or sinkage
 * @param wheel      rigid where it has no load–deflection curve
 * @returns          "pull", or "pull, flexible"
 * @source           common practice
 * @checked          tests/fitting/wheelSoilFit.test.ts
 */
export function missKey(quantity: WheelQuantity, wheel: WheelSubject): string {
  return wheel.curve === null ? quantity : `${quantity}, flexible`;
}

const passes = 12;
/** steps of a start, and of a pass: the weights change after it anyway */
const roughSteps = 25;
const passSteps = 3;
const lastSteps = 200;
/** change of a discrepancy below which the passes end, as a share */
const settled = 0.02;
/** no run is known better than this share: keeps one point from owning the fit */
const floor = 1e-4;
const slipStep = 1e-3;

/**
 * Fits a wheel–soil model to the runs' pull, torque and sinkage together.
 *
 *   minimise Σ ((yᵢ − fᵢ(p))/uᵢ)² + Σ ((pⱼ − mⱼ)/sⱼ)²,   u² = own² + (∂f/∂s · u_s)² + δ_q²
 *   δ_q: what the model misses of that quantity, as large as makes Σ (r/u)² over it equal its share of the degrees of freedom
 *   C = (Σ ggᵀ/u² + diag(1/s²))⁻¹ + Σ over shared causes of shift shiftᵀ
 *
 * A model is never exact; without δ the constants would claim more than the misfit allows, and bands would not hold the
 * next measurement. δ is taken as independent from datum to datum.
 *
 * @param observations   at least one datum
 * @param toFit          model, beliefs, bounds, starts
 * @returns              the fit; `converged` false with the reason when no start gave an answer
 * @source               M. C. Kennedy and A. O'Hagan, J. R. Stat. Soc. B 63 (2001) 425, for the discrepancy; δ by moments after R. C. Paule and J. Mandel 1982; both from memory
 * @checked              tests/fitting/wheelSoilFit.test.ts
 */
export function wheelSoilFit(observations: readonly WheelObservation[], toFit: WheelModelToFit): WheelSoilFit {
  const rows = rowsOf(observations);
  const rough = (some: readonly Row[], start: readonly number[]): VectorFit => solve(some, toFit, start, some.map(() => 0.05), roughSteps);
  const ends = toFit.starts.map((start) => rough(rows, start)).filter((end) => Number.isFinite(end.sumOfSquares));
  const best = ends.reduce<VectorFit | null>((least, end) => (least === null || end.sumOfSquares < least.sumOfSquares ? end : least), null);
  if (best === null) return nothing(toFit, "the model has no answer at any start");
  const agreeingStarts = ends.filter((end) => end.sumOfSquares < best.sumOfSquares * 1.01 + 1e-3).length;
  // Where a model describes one kind of wheel only, the kinds pull apart: each is asked alone too, and the likelier end counts.
  const kinds = [true, false].map((rigid) => rows.filter(({ observation }) => (observation.wheel.curve === null) === rigid)).filter((some) => some.length > 0);
  const apart = kinds.length > 1 && toFit.starts.length > 1;
  const from = [best.parameters, ...(apart ? kinds.map((some) => rough(some, best.parameters).parameters) : [])];
  const settledFits = from.map((start) => settle(rows, toFit, start, start !== best.parameters));
  const { fit, own, discrepancy } = settledFits.reduce((likeliest, other) => (other.logLikelihood > likeliest.logLikelihood ? other : likeliest));
  const doubts = doubtsOf(rows, own, discrepancy);
  const ownCovariance = fit.covariance;
  const shifts = sharedShifts(rows, fit, doubts, ownCovariance, slipSlopes(rows, toFit.model, fit.parameters));
  return {
    fitted: fit.parameters,
    ownCovariance,
    covariance: ownCovariance.map((row, i) => row.map((value, j) => value + shifts.reduce((sum, shift) => sum + (shift[i] as number) * (shift[j] as number), 0))),
    discrepancy,
    data: rows.map(({ observation, quantity, estimate }, i) => ({ observation, quantity, measured: estimate.value, predicted: estimate.value - (fit.residuals[i] as number), ownUncertainty: own[i] as number })),
    jacobian: fit.jacobian,
    converged: fit.converged,
    atLimit: fit.atLimit,
    agreeingStarts,
    reason: fit.reason,
  };
}

function rowsOf(observations: readonly WheelObservation[]): Row[] {
  return observations.flatMap((observation) => quantities.flatMap((quantity) => {
    const estimate = observation.measured[quantity];
    return estimate === undefined ? [] : [{ observation, quantity, estimate }];
  }));
}

function solve(rows: readonly Row[], { model, beliefs, lower, upper }: WheelModelToFit, start: readonly number[], doubts: readonly number[], maximumSteps: number): VectorFit {
  const observations = [...new Set(rows.map(({ observation }) => observation))];
  const predict = (p: readonly number[]): number[] => {
    const states = new Map(observations.map((observation) => [observation, model(p, observation.wheel, observation.slip.value, observation.loadN)]));
    return rows.map(({ observation, quantity }) => shareOf(states.get(observation) ?? { reason: "" }, quantity, observation.wheel));
  };
  return vectorFit({ predict, y: rows.map(({ estimate }) => estimate.value), standardUncertainties: doubts, start, lower, upper, priors: beliefs, maximumSteps });
}

/** From a start to where parameters and misfits agree. `apart`: begin with the misfits that stand at the start, not with equal ones. */
function settle(rows: readonly Row[], toFit: WheelModelToFit, start: readonly number[], apart: boolean): { fit: VectorFit; own: number[]; discrepancy: Record<string, number>; logLikelihood: number } {
  const keys = [...new Set(rows.map(({ observation, quantity }) => missKey(quantity, observation.wheel)))];
  const misses = (fit: VectorFit, own: readonly number[]): Record<string, number> => {
    const freed = 1 - spentParameters(fit, toFit.beliefs) / rows.length;
    return Object.fromEntries(keys.map((key) => [key, missed(rows.flatMap((row, i) => (missKey(row.quantity, row.observation.wheel) === key ? [{ residual: fit.residuals[i] as number, own: own[i] as number }] : [])), freed)]));
  };
  let own = ownDoubts(rows, toFit.model, start);
  let discrepancy = Object.fromEntries(keys.map((key) => [key, 0.03]));
  // no step is taken: the misfits at the start itself
  if (apart) discrepancy = misses(solve(rows, toFit, start, doubtsOf(rows, own, discrepancy), 0), own);
  let fit = solve(rows, toFit, start, doubtsOf(rows, own, discrepancy), passSteps);
  for (let pass = 0; pass < passes; pass++) {
    own = ownDoubts(rows, toFit.model, fit.parameters);
    const next = misses(fit, own);
    const change = Math.max(...keys.map((key) => Math.abs((next[key] as number) - (discrepancy[key] as number)) / Math.max(next[key] as number, floor)));
    discrepancy = next;
    fit = solve(rows, toFit, fit.parameters, doubtsOf(rows, own, discrepancy), passSteps);
    if (change < settled) break;
  }
  const doubts = doubtsOf(rows, own, discrepancy);
  fit = solve(rows, toFit, fit.parameters, doubts, lastSteps);
  return { fit, own, discrepancy, logLikelihood: -0.5 * fit.sumOfSquares - doubts.reduce((sum, doubt) => sum + Math.log(doubt), 0) };
}

interface Row {
  readonly observation: WheelObservation;
  readonly quantity: WheelQuantity;
  readonly estimate: WheelObservation["slip"];
}

const doubtsOf = (rows: readonly Row[], own: readonly number[], discrepancy: Readonly<Record<string, number>>): number[] => rows.map(({ observation, quantity }, i) => Math.hypot(own[i] as number, discrepancy[missKey(quantity, observation.wheel)] as number));

function slipSlopes(rows: readonly Row[], model: FittedModel, p: readonly number[]): number[] {
  return rows.map(({ observation: { wheel, slip, loadN }, quantity }) => {
    const at = (s: number): number => shareOf(model(p, wheel, Math.min(1, s), loadN), quantity, wheel);
    const slope = (at(slip.value + slipStep) - at(slip.value - slipStep)) / (2 * slipStep);
    return Number.isFinite(slope) ? slope : 0;
  });
}

function ownDoubts(rows: readonly Row[], model: FittedModel, p: readonly number[]): number[] {
  const slopes = slipSlopes(rows, model, p);
  return rows.map(({ observation, estimate }, i) => Math.max(floor, Math.hypot(unsharedUncertainty(estimate), (slopes[i] as number) * unsharedUncertainty(observation.slip))));
}

/** How many parameters the data have paid for: those whose belief they narrowed count, the others do not. */
function spentParameters(fit: VectorFit, beliefs: readonly Belief[]): number {
  return beliefs.reduce((sum, { sd }, j) => sum + Math.max(0, 1 - ((fit.covariance[j] as readonly number[])[j] as number) / sd ** 2), 0);
}

/** δ with Σ r²/(own² + δ²) = n · freed; 0 when the runs' own uncertainties explain the misfit. */
function missed(points: readonly { readonly residual: number; readonly own: number }[], freed: number): number {
  const aim = points.length * Math.max(0.05, freed);
  const excess = (delta: number): number => points.reduce((sum, { residual, own }) => sum + residual ** 2 / (own ** 2 + delta ** 2), 0) - aim;
  if (points.length === 0 || excess(0) <= 0) return 0;
  let [low, high] = [0, 10 * Math.max(...points.map(({ residual }) => Math.abs(residual)))];
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** What each shared cause does to the parameters when it moves by one standard uncertainty: C Jᵀ U⁻¹ · moved data. */
function sharedShifts(rows: readonly Row[], fit: VectorFit, doubts: readonly number[], covariance: readonly (readonly number[])[], slopes: readonly number[]): number[][] {
  const onData = sharedEffects(rows.map(({ estimate }) => estimate));
  const onSlip = sharedEffects(rows.map(({ observation }) => observation.slip));
  const causes = new Set([...onData, ...onSlip].map(({ cause }) => cause));
  return [...causes].map((cause) => {
    const data = onData.find((one) => one.cause === cause)?.effects;
    const slip = onSlip.find((one) => one.cause === cause)?.effects;
    const pulled = fit.parameters.map((_, j) => rows.reduce((sum, _row, i) => sum + (((fit.jacobian[i] as readonly number[])[j] as number) * ((data?.[i] ?? 0) - (slopes[i] as number) * (slip?.[i] ?? 0))) / (doubts[i] as number) ** 2, 0));
    return covariance.map((row) => row.reduce((sum, value, j) => sum + value * (pulled[j] as number), 0));
  });
}

function nothing({ beliefs }: WheelModelToFit, reason: string): WheelSoilFit {
  const blank = beliefs.map(() => beliefs.map(() => Number.NaN));
  return { fitted: beliefs.map(() => Number.NaN), covariance: blank, ownCovariance: blank, discrepancy: {}, data: [], jacobian: [], converged: false, atLimit: beliefs.map(() => false), agreeingStarts: 0, reason };
}
