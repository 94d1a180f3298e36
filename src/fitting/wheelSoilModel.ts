import { flexibleWheel } from "../models/flexibleWheel.ts";
import { lugStress, shearingRadius } from "../models/lugs.ts";
import { pullSlip } from "../models/pullSlip.ts";
import { resistiveForceWheel } from "../models/resistiveForceWheel.ts";
import { rigidWheel } from "../models/rigidWheel.ts";
import { widerCircleWheel } from "../models/widerCircleWheel.ts";
import type { NoEquilibrium, WheelModel, WheelState } from "../models/wheelSoil.ts";
import { rememberLast } from "../numerics/rememberLast.ts";
import type { WheelQuantity, WheelSubject } from "./wheelObservations.ts";
import { shapeOf, toWheelSoil } from "./wheelSoilParameters.ts";

/** A wheel–soil model as the fit sees it: parameters in, the state of a wheel out; in balance, or as far in as a state that it is held at. */
export type FittedModel = (fitted: readonly number[], wheel: WheelSubject, slip: number, loadN: number, held?: WheelState) => WheelState | NoEquilibrium;

/** What of the ground is given and not fitted. */
export interface Ground {
  /** b₀, the width at which p₁₀ is a parameter [m] */
  readonly referenceWidthM: number;
  /** γ, density times gravity [N/m³]; null = no bed's density was stated: lugs push against cohesion alone */
  readonly unitWeight: number | null;
}

/** How a flexible wheel is taken: flattened where it touches, or as a rigid one of a wider circle. */
export type FlexibleForm = "flat contact" | "wider circle";

/**
 * One wheel on one soil by the stress integrals, made ready to be asked many times.
 *
 * @param fitted   parameters in the order of `soilParameters`
 * @param wheel    rigid, or flexible where its load–deflection curve was measured; lugs shear by κ and push by what it leaves of their height
 * @param ground   b₀ and γ
 * @param form     how a flexible wheel is taken
 * @param nodes    of the rigid wheel's quadrature; 8 leave 1e-5 of the load, far below what any model misses
 * @returns        slip [1] and load [N] → the wheel's state, or why there is none
 * @source         `rigidWheel`, `flexibleWheel`, `widerCircleWheel`, `lugStress`
 * @checked        tests/fitting/wheelSoilFit.test.ts
 */
export function wheelOnSoil(fitted: readonly number[], wheel: Omit<WheelSubject, "id">, ground: Ground, form: FlexibleForm, nodes = 8): WheelModel {
  const bare = toWheelSoil(fitted, wheel.widthM, ground.referenceWidthM);
  const { lugShare, flattening } = shapeOf(fitted);
  const lugs = { count: wheel.lugs, heightM: wheel.lugHeightM };
  const pushed = { cohesionPa: bare.cohesionPa, frictionAngleRad: bare.frictionAngleRad, unitWeight: ground.unitWeight ?? 0 };
  const soil = { ...bare, cohesionPa: bare.cohesionPa + lugStress(pushed, wheel.rimM, lugs, lugShare) };
  const drum = { radiusM: shearingRadius(wheel.rimM, lugs, lugShare), widthM: wheel.widthM };
  const { curve } = wheel;
  if (curve === null) return (slip, loadN, held) => rigidWheel(drum, soil, slip, loadN, nodes, held);
  return form === "flat contact" ? (slip, loadN, held) => flexibleWheel(drum, curve, soil, slip, loadN, held) : (slip, loadN, held) => widerCircleWheel(drum, curve, flattening, soil, slip, loadN, nodes, held);
}

/**
 * The stress integrals as a model to be fitted.
 *
 * @param ground   b₀ and γ
 * @param form     how a flexible wheel is taken
 * @returns        the model, for parameters in the order of `soilParameters`
 * @source         `wheelOnSoil`
 * @checked        tests/fitting/wheelSoilFit.test.ts
 */
export function stressIntegrals(ground: Ground, form: FlexibleForm): FittedModel {
  // fits ask for all runs at the same parameters: what does not depend on load and slip is made once a wheel
  const wheelsOn = rememberLast(() => new Map<WheelSubject, WheelModel>());
  return (fitted, wheel, slip, loadN, held) => {
    const made = wheelsOn(fitted);
    const model = made.get(wheel) ?? wheelOnSoil(fitted, wheel, ground, form);
    made.set(wheel, model);
    return model(slip, loadN, held);
  };
}

/**
 * The resistive-force wheel, to hold the stress integrals against: one constant, ln ζ [kPa/m].
 *
 * @param fitted   [ln ζ]
 * @param wheel    tips of its lugs count as its rim
 * @param slip     s; a slip of 1 is not in the model's reach
 * @param loadN    W [N]
 * @param held     a state whose sinkage is kept
 * @returns        the wheel's state, or why there is none
 * @source         `resistiveForceWheel`
 * @checked        tests/fitting/wheelSoilFit.test.ts
 */
export const resistiveForce: FittedModel = (fitted, wheel, slip, loadN, held) =>
  slip >= 1 ? { reason: "a wheel that spins on the spot has no leading side" } : resistiveForceWheel({ radiusM: wheel.rimM + wheel.lugHeightM, widthM: wheel.widthM }, 1000 * Math.exp(fitted[0] as number), slip, loadN, held);

/**
 * A saturating curve for each wheel, to hold the models against: it knows nothing of load or soil.
 *
 *   P/W = A (1 − e^(−s/B)) − C        parameters A, ln B, C of each wheel in turn
 *
 * Pull only: torque and sinkage are not predicted (NaN).
 *
 * @param wheels   ids, in the order of their parameters
 * @returns        the model; for wheels it does not know it has no answer
 * @source         `pullSlip`
 * @checked        tests/fitting/wheelSoilFit.test.ts
 */
export function plainCurves(wheels: readonly string[]): FittedModel {
  return (fitted, wheel, slip, loadN) => {
    const at = 3 * wheels.indexOf(wheel.id);
    if (at < 0) return { reason: `a plain curve says nothing of a wheel that was not tested (${wheel.id})` };
    const curve = { rise: fitted[at] as number, slipScale: Math.exp(fitted[at + 1] as number), resistance: fitted[at + 2] as number };
    return { loadN, pullN: loadN * pullSlip(slip, curve), torqueNm: Number.NaN, sinkageM: Number.NaN, deflectionM: 0, entryRad: Number.NaN };
  };
}

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
