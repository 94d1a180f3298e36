import { vectorFit } from "../numerics/vectorFit.ts";
import type { VectorFit } from "../numerics/vectorFit.ts";
import type { Whitening } from "../numerics/whitening.ts";
import { missKey } from "./wheelMisfit.ts";
import type { MisfitRow } from "./wheelMisfit.ts";
import { quantities } from "./wheelObservations.ts";
import type { WheelObservation } from "./wheelObservations.ts";
import type { WheelShares } from "./wheelShares.ts";
import type { WheelModelToFit } from "./wheelSoilFit.ts";

/** A measured share of a run, as fits take it. */
export interface WheelRow extends MisfitRow {
  readonly estimate: WheelObservation["slip"];
}

/**
 * The measured shares of the runs, one a row.
 *
 * @param observations   the runs
 * @returns              in the order of the runs, pull before torque before sinkage
 * @source               common practice
 * @checked              tests/fitting/wheelSoilFit.test.ts
 */
export function wheelRows(observations: readonly WheelObservation[]): WheelRow[] {
  return observations.flatMap((observation) => quantities.flatMap((quantity) => {
    const estimate = observation.measured[quantity];
    return estimate === undefined ? [] : [{ observation, quantity, kind: missKey(quantity, observation.wheel), estimate }];
  }));
}

/**
 * A wheel–soil model through rows whose covariance is known: generalised least squares with beliefs.
 *
 *   minimise (y − f(p))ᵀ V⁻¹ (y − f(p)) + Σ ((pⱼ − mⱼ)/sⱼ)²
 *
 * @param shares         the data, and what the model says of them
 * @param toFit          beliefs, bounds
 * @param start          of the parameters
 * @param whitening      of V
 * @param maximumSteps   of the search
 * @returns              as `vectorFit`; residuals and slopes in shares, not whitened
 * @source               `vectorFit`, `whitening`
 * @checked              tests/fitting/wheelSoilFit.test.ts
 */
export function whitenedFit({ rows, at, slopes }: WheelShares, { beliefs, lower, upper }: Pick<WheelModelToFit, "beliefs" | "lower" | "upper">, start: readonly number[], { whiten, colour }: Whitening, maximumSteps: number): VectorFit {
  const fit = vectorFit({ predict: (p) => whiten(at(p)), slopes: (p) => slopes(p).map(whiten), y: whiten(rows.map(({ estimate }) => estimate.value)), standardUncertainties: rows.map(() => 1), start, lower, upper, priors: beliefs, maximumSteps });
  const columns = slopes(fit.parameters);
  return { ...fit, residuals: colour(fit.residuals), jacobian: rows.map((_, i) => columns.map((column) => column[i] as number)) };
}
