import { estimateFrom } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import type { Unit } from "../core/units.ts";
import { studentTQuantile } from "../numerics/distributions.ts";
import { blowQuantities } from "./contactDrops.ts";
import type { ContactDrop } from "./contactDrops.ts";
import { blowValues, contactFit, contactWith } from "./contactFit.ts";
import type { ContactFit } from "./contactFit.ts";
import { functionOfFit } from "./parameterEstimates.ts";
import { unsharedUncertainty } from "./sharedEffects.ts";

const units = ["m/s2", "m", "s", "1"] as const satisfies readonly Unit[];

/**
 * What a blow would do, from a fitted contact.
 *
 *   f(v₁, g) with the constants' covariance and shared causes, and the misfit τ f of the model on top
 *
 * In the order of `blowQuantities` [m/s², m, s, 1]: the interval is that of one more drop.
 *
 * @param fitted   a determined contact
 * @param speedMps v₁ [m/s]
 * @param gravity  g [m/s²]
 * @param label    names the blow, so that its misfit is its own
 * @param misfits  τ of each quantity as a share; that of the fit when left out
 * @returns        four Estimates
 * @source         JCGM 100:2008, 5.2.2
 * @checked        tests/fitting/contactPrediction.test.ts
 */
export function predictedBlow(fitted: ContactFit, speedMps: number, gravity: number, label: string, misfits: readonly number[] = blowQuantities.map(() => fitted.misfit)): Estimate[] {
  const { fit, contact, free } = fitted;
  const constants = fit.parameters.map((parameter) => parameter.estimate.value);
  const values = blowValues(contact, speedMps, gravity);
  const slopes = constants.map((value, i) => {
    const step = 1e-4 * Math.max(Math.abs(value), 0.01);
    const at = (shift: number): number[] => blowValues(contactWith(contact, free, constants.map((one, k) => (k === i ? one + shift : one))), speedMps, gravity);
    const [high, low] = [at(step), at(-step)];
    return values.map((_, quantity) => ((high[quantity] as number) - (low[quantity] as number)) / (2 * step));
  });
  return values.map((value, quantity) => {
    const method = "from the fitted contact of this wheel";
    const bare = functionOfFit(fit, value, slopes.map((row) => row[quantity] as number), units[quantity] as Unit, method);
    return estimateFrom(value, bare.unit, method, [...bare.budget, { cause: `scatter of drops and misfit of the contact, ${label}, ${blowQuantities[quantity]?.label}`, effect: (misfits[quantity] as number) * value, sharedBy: null, degreesOfFreedom: fit.degreesOfFreedom }]);
  });
}

/** How a contact fitted without one height predicts the drops from it. */
export interface HeldOut {
  readonly heightM: number;
  readonly run: string;
  /** as in `blowQuantities` */
  readonly quantity: string;
  /** measured over predicted, less one */
  readonly error: number;
  /** measured inside the 95 % interval of the prediction, both uncertainties together */
  readonly inside: boolean;
}

/**
 * Leave one height out: the contact is fitted to the other heights and predicts every drop from that one, at its measured
 * contact speed.
 *
 *   error = y/f − 1;   inside when |y − f| ≤ t u,  u² = u_f² + u_y²  without what all drops share, which cancels
 *
 * @param drops   the drops that count
 * @param gravity at the laboratory [m/s²]
 * @returns       one entry a drop and quantity; empty with fewer than four heights, as three must be left to fit
 * @source        cross-validation by groups, common practice
 * @checked       tests/fitting/contactPrediction.test.ts
 */
export function leaveOneHeightOut(drops: readonly ContactDrop[], gravity: number): HeldOut[] {
  const heights = [...new Set(drops.map((drop) => drop.heightM))].filter((height) => height !== null);
  return heights.flatMap((heightM) => {
    const fitted = contactFit(drops.filter((drop) => drop.heightM !== heightM), [], gravity);
    if (fitted.fit.verdict !== "determined") return [];
    return drops.filter((drop) => drop.heightM === heightM).flatMap((drop) =>
      predictedBlow(fitted, drop.speed.value, gravity, drop.run).map((predicted, quantity): HeldOut => {
        const observed = drop.observed[quantity] as Estimate;
        const own = Math.hypot(unsharedUncertainty(predicted), unsharedUncertainty(observed));
        const away = Math.abs(observed.value - predicted.value);
        return { heightM, run: drop.run, quantity: blowQuantities[quantity]?.label ?? "", error: observed.value / predicted.value - 1, inside: away <= studentTQuantile(0.975, fitted.fit.degreesOfFreedom) * own };
      }),
    );
  });
}
