import type { NoEquilibrium } from "../models/wheelSoil.ts";
import { forecastMisfit } from "./forecastMisfit.ts";
import type { WheelQuantity, WheelSubject } from "./wheelObservations.ts";
import { shareOf } from "./wheelSoilModel.ts";
import type { Belief, WheelModelToFit, WheelSoilFit } from "./wheelSoilFit.ts";

/** One predicted share with what it rests on. */
export interface PredictedShare {
  /** pull/W, torque/(R W) or sinkage/R */
  readonly value: number;
  /** what the parameters leave open */
  readonly parameterUncertainty: number;
  /** with what the model misses: where the next measurement will fall, but for its own noise */
  readonly uncertainty: number;
}

const stepShare = 1e-3;

/**
 * A share that the fit foretells for a wheel at a slip and a load.
 *
 *   u² = gᵀ C g + δ²        g: slopes by the parameters, δ: `forecastMisfit`
 *
 * @param fit       a converged fit
 * @param toFit     the model it is of
 * @param quantity  which share
 * @param wheel     any wheel, also one that was not tested
 * @param slip      s
 * @param loadN     W [N]
 * @returns         value and uncertainties [1]; or why the model has no answer there
 * @source          JCGM 100:2008, 5.2.2
 * @checked         tests/fitting/wheelSoilPrediction.test.ts
 */
export function predictShare(fit: WheelSoilFit, { model, beliefs, lower, upper }: WheelModelToFit, quantity: WheelQuantity, wheel: WheelSubject, slip: number, loadN: number): PredictedShare | NoEquilibrium {
  const at = (p: readonly number[]) => model(p, wheel, slip, loadN);
  const state = at(fit.fitted);
  if ("reason" in state) return state;
  const value = shareOf(state, quantity, wheel);
  const slopes = fit.fitted.map((parameter, j) => {
    const step = stepShare * (beliefs[j] as Belief).sd;
    const [above, below] = [Math.min(upper[j] as number, parameter + step), Math.max(lower[j] as number, parameter - step)];
    const share = (moved: number): number => shareOf(at(fit.fitted.map((other, k) => (k === j ? moved : other))), quantity, wheel);
    return (share(above) - share(below)) / (above - below);
  });
  const variance = slopes.reduce((sum, a, i) => sum + slopes.reduce((inner, b, j) => inner + a * b * ((fit.covariance[i] as readonly number[])[j] as number), 0), 0);
  if (!Number.isFinite(variance)) return { reason: "the model loses its balance when a parameter moves a little" };
  const missed = forecastMisfit(fit, quantity, wheel);
  return { value, parameterUncertainty: Math.sqrt(Math.max(0, variance)), uncertainty: Math.sqrt(Math.max(0, variance) + missed ** 2) };
}
