import { significant } from "../core/significant.ts";
import { mean } from "../numerics/statistics.ts";
import type { WheelObservation, WheelQuantity } from "./wheelObservations.ts";
import { quantities } from "./wheelObservations.ts";
import { unsharedUncertainty } from "./sharedEffects.ts";
import { predictShare } from "./wheelSoilPrediction.ts";
import { wheelSoilFit } from "./wheelSoilFit.ts";
import type { WheelModelToFit } from "./wheelSoilFit.ts";

/** One measured share foretold by a fit that did not see its condition. */
export interface HeldOutPoint {
  readonly run: string;
  readonly group: string;
  readonly quantity: WheelQuantity;
  readonly measured: number;
  readonly predicted: number;
  /** of their difference */
  readonly uncertainty: number;
}

/** How well a model foretells conditions it was not fitted to. */
export interface HeldOutScore {
  readonly points: readonly HeldOutPoint[];
  /** conditions without a forecast, and why */
  readonly failed: readonly { readonly group: string; readonly reason: string }[];
  /** root of the mean squared error of each share; NaN without points */
  readonly error: Readonly<Record<WheelQuantity, number>>;
  /** share of the points inside their 95 % interval */
  readonly inside: number;
  /** the same of each share */
  readonly insideBy: Readonly<Record<WheelQuantity, number>>;
  /** mean logarithm of the predictive density of each share: greater is better, and bands too wide cost as bands too narrow do; NaN without points */
  readonly logScore: Readonly<Record<WheelQuantity, number>>;
}

const twoSided95 = 1.959963984540054;

/**
 * Ways to leave out whole conditions: what names the condition of a run.
 *
 * @source    common practice
 * @checked   tests/fitting/wheelSoilPrediction.test.ts
 */
export const heldOutGroups: Readonly<Record<"load" | "wheel" | "slip", (observation: WheelObservation) => string>> = {
  load: ({ setLoadN, loadN }) => `${significant(setLoadN ?? loadN, 3)} N`,
  wheel: ({ wheel }) => wheel.id,
  slip: ({ slip }) => (slip.value < 0 ? "braked" : slip.value < 0.15 ? "slip below 0.15" : slip.value < 0.35 ? "slip 0.15 to 0.35" : "slip above 0.35"),
};

/**
 * Leaves out one condition after the other, fits the rest, and holds the forecast against what was measured.
 *
 *   z = (measured − predicted)/√(u² + own²)        score = mean of −½ z² − ln(√(2π) u)
 *
 * Whole conditions, not single runs: neighbours at the same load would give the answer away.
 *
 * @param observations   all runs
 * @param toFit          model, beliefs, bounds, starts
 * @param groupOf        names the condition of a run
 * @returns              every forecast, errors, coverage and score; groups that could not be foretold are named
 * @source               cross-validation and the logarithmic score: T. Gneiting and A. E. Raftery, J. Am. Stat. Assoc. 102 (2007) 359, from memory
 * @checked              tests/fitting/wheelSoilPrediction.test.ts
 */
export function heldOut(observations: readonly WheelObservation[], toFit: WheelModelToFit, groupOf: (observation: WheelObservation) => string): HeldOutScore {
  const groups = [...new Set(observations.map(groupOf))];
  const points: HeldOutPoint[] = [];
  const failed: { group: string; reason: string }[] = [];
  if (groups.length < 2) return score(points, [{ group: groups[0] ?? "", reason: "there is one condition only; nothing is left to fit when it is held out" }]);
  for (const group of groups) {
    const fit = wheelSoilFit(observations.filter((observation) => groupOf(observation) !== group), toFit);
    if (!fit.converged) {
      failed.push({ group, reason: fit.reason });
      continue;
    }
    for (const observation of observations.filter((one) => groupOf(one) === group)) {
      for (const quantity of quantities) {
        const estimate = observation.measured[quantity];
        if (estimate === undefined) continue;
        const predicted = predictShare(fit, toFit, quantity, observation.wheel, observation.slip.value, observation.loadN);
        if ("reason" in predicted) failed.push({ group: `${group}, ${observation.run}`, reason: predicted.reason });
        else points.push({ run: observation.run, group, quantity, measured: estimate.value, predicted: predicted.value, uncertainty: Math.hypot(predicted.uncertainty, unsharedUncertainty(estimate)) });
      }
    }
  }
  return score(points, failed);
}

function score(points: readonly HeldOutPoint[], failed: HeldOutScore["failed"]): HeldOutScore {
  const zOf = ({ measured, predicted, uncertainty }: HeldOutPoint): number => (measured - predicted) / uncertainty;
  const holds = (point: HeldOutPoint): number => (Math.abs(zOf(point)) <= twoSided95 ? 1 : 0);
  const each = (value: (of: readonly HeldOutPoint[]) => number): Record<WheelQuantity, number> => {
    const of = (quantity: WheelQuantity): number => {
      const own = points.filter((point) => point.quantity === quantity);
      return own.length === 0 ? Number.NaN : value(own);
    };
    return { pull: of("pull"), torque: of("torque"), sinkage: of("sinkage") };
  };
  return {
    points, failed,
    error: each((of) => Math.sqrt(mean(of.map(({ measured, predicted }) => (measured - predicted) ** 2)))),
    insideBy: each((of) => mean(of.map(holds))),
    inside: points.length === 0 ? Number.NaN : mean(points.map(holds)),
    logScore: each((of) => mean(of.map((point) => -0.5 * zOf(point) ** 2 - Math.log(point.uncertainty * Math.sqrt(2 * Math.PI))))),
  };
}
