import { flexibleWheel } from "../models/flexibleWheel.ts";
import { shearingRadius } from "../models/lugs.ts";
import { resistiveForceWheel } from "../models/resistiveForceWheel.ts";
import { rigidWheel } from "../models/rigidWheel.ts";
import type { NoEquilibrium, WheelState } from "../models/wheelSoil.ts";
import type { WheelQuantity, WheelSubject } from "./wheelObservations.ts";
import { lugShareOf, toWheelSoil } from "./wheelSoilParameters.ts";

/** A wheel–soil model as the fit sees it: parameters in, the state of a wheel out. */
export type FittedModel = (fitted: readonly number[], wheel: WheelSubject, slip: number, loadN: number) => WheelState | NoEquilibrium;

/**
 * The stress integrals: a rigid wheel, or a flexible one where its load–deflection curve was measured.
 *
 * @param referenceWidthM   b₀, the width at which p₁₀ is a parameter [m]
 * @returns                 the model, for parameters in the order of `soilParameters`
 * @source                  `rigidWheel` and `flexibleWheel`
 * @checked                 tests/fitting/wheelSoilFit.test.ts
 */
export function stressIntegrals(referenceWidthM: number): FittedModel {
  return (fitted, wheel, slip, loadN) => {
    const soil = toWheelSoil(fitted, wheel.widthM, referenceWidthM);
    const drum = { radiusM: shearingRadius(wheel.rimM, { count: 0, heightM: wheel.lugHeightM }, lugShareOf(fitted)), widthM: wheel.widthM };
    return wheel.curve === null ? rigidWheel(drum, soil, slip, loadN) : flexibleWheel(drum, wheel.curve, soil, slip, loadN);
  };
}

/**
 * The resistive-force wheel, to hold the stress integrals against: one constant, ln ζ [kPa/m].
 *
 * @param fitted   [ln ζ]
 * @param wheel    tips of its lugs count as its rim
 * @param slip     s; a slip of 1 is not in the model's reach
 * @param loadN    W [N]
 * @returns        the wheel's state, or why there is none
 * @source         `resistiveForceWheel`
 * @checked        tests/fitting/wheelSoilFit.test.ts
 */
export const resistiveForce: FittedModel = (fitted, wheel, slip, loadN) =>
  slip >= 1 ? { reason: "a wheel that spins on the spot has no leading side" } : resistiveForceWheel({ radiusM: wheel.rimM + wheel.lugHeightM, widthM: wheel.widthM }, 1000 * Math.exp(fitted[0] as number), slip, loadN);

/**
 * One quantity of a wheel's state as the share in which fits compare it.
 *
 *   pull/W, torque/(R W), sinkage/R        R to the lugs' tips
 *
 * @param state      the state, or why there is none
 * @param quantity   pull, torque or sinkage
 * @param wheel      gives R
 * @returns          the share [1]; NaN where there is no state
 * @source           common practice
 * @checked          tests/fitting/wheelSoilFit.test.ts
 */
export function shareOf(state: WheelState | NoEquilibrium, quantity: WheelQuantity, wheel: WheelSubject): number {
  if ("reason" in state) return Number.NaN;
  const radius = wheel.rimM + wheel.lugHeightM;
  return quantity === "pull" ? state.pullN / state.loadN : quantity === "torque" ? state.torqueNm / (radius * state.loadN) : state.sinkageM / radius;
}
