import { UsageError } from "../core/errors.ts";
import { significant } from "../core/significant.ts";
import { depthOf } from "./depthOf.ts";
import { firstSinkage } from "./firstSinkage.ts";
import { deflectionAt } from "./plateCurve.ts";
import type { PlateCurve } from "./plateCurve.ts";
import { rigidWheelForces } from "./rigidWheel.ts";
import type { Drum, NoEquilibrium, WheelForces, WheelSoil, WheelState } from "./wheelSoil.ts";

/**
 * Radius of the circle through the lowest point of a flattened wheel and the point where contact begins.
 *
 *   R* = R (√(1 + δ/z) + √(δ/z))²
 *
 * @param radiusM       R [m], > 0
 * @param deflectionM   δ [m], ≥ 0
 * @param sinkageM      z [m], > 0
 * @returns             R* [m]; R where nothing is flattened
 * @throws              UsageError when an input is out of its range
 * @source              C. Harnisch et al., Vehicle System Dynamics 43 supplement (2005), larger substitute circle, from memory
 * @checked             tests/models/widerCircleWheel.test.ts
 */
export function widerRadius(radiusM: number, deflectionM: number, sinkageM: number): number {
  if (!(radiusM > 0 && deflectionM >= 0 && sinkageM > 0)) throw new UsageError(`widerRadius: expected R and z above 0 m and a deflection of at least 0 m, found ${radiusM}, ${sinkageM}, ${deflectionM}`);
  const ratio = deflectionM / sinkageM;
  return radiusM * (Math.sqrt(1 + ratio) + Math.sqrt(ratio)) ** 2;
}

/**
 * A flexible wheel in balance with its load, as a rigid one of a wider circle: flattened evenly, its greatest stress still
 * ahead of the axle.
 *
 *   δ = μ δ_plate(W)      stresses of the rigid wheel on R*(δ, z)      T by the unloaded radius
 *
 * μ: how far the wheel flattens on soft ground, of what it does on a hard plate; 1 is its upper end. Losses inside the wheel are not in T.
 *
 * @param wheel   R unloaded, b [m]
 * @param curve   load against deflection on a hard plate
 * @param share   μ [1], 0 … 1
 * @param soil    constants at the wheel's width
 * @param slip    s, above −1 and up to 1
 * @param loadN   W [N], > 0
 * @param nodes   of the quadrature
 * @param held    a state whose sinkage is kept, in balance or not; left out: the balance is looked for
 * @returns       sinkage, deflection, pull, torque, and the load carried there; or why there is no balance
 * @throws        UsageError when share, slip, load or curve is out of its range
 * @source        as `widerRadius` and `rigidWheelForces`
 * @checked       tests/models/widerCircleWheel.test.ts
 */
export function widerCircleWheel(wheel: Drum, curve: PlateCurve, share: number, soil: WheelSoil, slip: number, loadN: number, nodes?: number, held?: WheelState): WheelState | NoEquilibrium {
  if (!(loadN > 0)) throw new UsageError(`widerCircleWheel: expected a load above 0 N, found ${loadN}`);
  if (!(share >= 0 && share <= 1)) throw new UsageError(`widerCircleWheel: expected a share of the deflection from 0 to 1, found ${share}`);
  const onPlate = deflectionAt(curve, loadN);
  if (onPlate === null) return { reason: `the load–deflection curve ends below ${significant(loadN, 3)} N; measure it further` };
  const deflectionM = share * onPlate;
  let forces: WheelForces | undefined;
  let radiusM = wheel.radiusM;
  const carried = (sinkageM: number): number => {
    radiusM = widerRadius(wheel.radiusM, deflectionM, sinkageM);
    forces = rigidWheelForces({ radiusM, widthM: wheel.widthM }, soil, slip, sinkageM, nodes);
    return forces.loadN;
  };
  const sinkageM = depthOf(carried, loadN, wheel.radiusM, () => firstSinkage(wheel, soil, slip, loadN), held?.sinkageM);
  if (sinkageM === null) return { reason: `the soil does not carry ${significant(loadN, 3)} N before the wheel is in up to its axle` };
  const { pullN, torqueNm, loadN: carriedN } = forces as WheelForces;
  return { loadN: held === undefined ? loadN : carriedN, pullN, torqueNm: (torqueNm * wheel.radiusM) / radiusM, sinkageM, deflectionM, entryRad: Math.acos(1 - sinkageM / radiusM) };
}
