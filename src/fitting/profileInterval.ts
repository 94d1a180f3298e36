import { misfitWhitening } from "./wheelMisfit.ts";
import { wheelShares } from "./wheelShares.ts";
import type { Belief, WheelModelToFit, WheelSoilFit } from "./wheelSoilFit.ts";
import { wheelRows, whitenedFit } from "./whitenedFit.ts";

/** Where the data alone leave one parameter, the others moving along. */
export interface ProfileInterval {
  /** where the data put it [fitted scale] */
  readonly best: number;
  /** ends of the 95 % interval; null = open: the data do not determine it on that side, up to its bound */
  readonly low: number | null;
  readonly high: number | null;
}

/** √χ² at which 95 % of the chance is inside */
const aim = 1.959963984540054;
const near = 0.05;
const tries = 12;
/** of each refit along the profile; it starts where the last one ended */
const refitSteps = 6;
/** a belief this many times as wide says nothing */
const silent = 1e3;

/**
 * Profile likelihood interval of one parameter: how far it can be moved before the data object, whatever the others do.
 *
 *   g(v) = min over the others of χ²(data) + beliefs of the others, at p_j = v        ends: g(v) = min g + 1.96²
 *
 * The parameter's own belief is left out, so an end that is not found before the bound says that the data do not hold the
 * parameter there; the covariance, which is of data and belief together, cannot say that. Misfit and weights stay as fitted.
 *
 * @param fit     a converged fit
 * @param toFit   its model
 * @param j       which parameter
 * @returns       best value and ends on the fitted scale; null = open on that side
 * @source        D. J. Venzon and S. H. Moolgavkar, Appl. Statist. 37 (1988) 87, from memory
 * @checked       tests/fitting/profileInterval.test.ts
 */
export function profileInterval(fit: WheelSoilFit, toFit: WheelModelToFit, j: number): ProfileInterval {
  const rows = wheelRows([...new Set(fit.data.map(({ observation }) => observation))]);
  const whitening = misfitWhitening(rows, fit.data.map(({ ownUncertainty }) => ownUncertainty), fit.data.map(({ weight }) => weight), fit.misfit);
  const alone = { ...toFit, beliefs: toFit.beliefs.map((belief, k): Belief => (k === j ? { ...belief, sd: silent * belief.sd } : belief)) };
  const free = whitenedFit(wheelShares(rows, toFit), alone, fit.fitted, whitening, refitSteps);
  const without = <T>(values: readonly T[]): T[] => values.filter((_, k) => k !== j);
  const fixed = (value: number, start: readonly number[]): { readonly z: number; readonly others: readonly number[] } => {
    const others: Pick<WheelModelToFit, "model" | "beliefs" | "lower" | "upper"> = { model: (q, ...where) => toFit.model([...q.slice(0, j), value, ...q.slice(j)], ...where), beliefs: without(toFit.beliefs), lower: without(toFit.lower), upper: without(toFit.upper) };
    const held = whitenedFit(wheelShares(rows, others), others, start, whitening, refitSteps);
    // no answer there: NaN, which is not inside
    return { z: Math.sqrt(Math.max(0, held.sumOfSquares - free.sumOfSquares)), others: held.parameters };
  };
  const best = free.parameters[j] as number;
  const spread = Math.sqrt((fit.ownCovariance[j] as readonly number[])[j] as number);
  const end = (side: 1 | -1): number | null => {
    const bound = (side > 0 ? toFit.upper : toFit.lower)[j] as number;
    const inside = (value: number): number => (side > 0 ? Math.min(bound, value) : Math.max(bound, value));
    // the near end lies inside the interval, the far one outside it as soon as there is one
    let [close, closeZ, far, farZ] = [best, 0, Number.NaN, Number.NaN];
    let others: readonly number[] = without(free.parameters);
    let value = inside(best + side * aim * spread);
    for (let step = 0; step < tries; step++) {
      if (value === best) return null;
      const at = fixed(value, others);
      if (Math.abs(at.z - aim) < near) return value;
      if (at.z < aim) {
        if (value === bound) return null;
        [close, closeZ, others] = [value, at.z, at.others];
      } else [far, farZ] = [value, at.z];
      if (Number.isNaN(far)) value = inside(best + (value - best) * Math.min(3, Math.max(1.2, aim / Math.max(at.z, 0.1))));
      else value = Number.isFinite(farZ) ? close + ((far - close) * (aim - closeZ)) / (farZ - closeZ) : (close + far) / 2;
    }
    return Number.isNaN(far) ? null : value;
  };
  return { best, low: end(-1), high: end(1) };
}
