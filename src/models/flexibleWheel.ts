import { UsageError } from "../core/errors.ts";
import { significant } from "../core/significant.ts";
import { gaussLegendre } from "../numerics/gaussLegendre.ts";
import { depthOf } from "./depthOf.ts";
import { deflectionAt, loadAt, requireRising } from "./plateCurve.ts";
import type { PlateCurve } from "./plateCurve.ts";
import type { Drum, NoEquilibrium, WheelForces, WheelSoil, WheelState } from "./wheelSoil.ts";

const nodesAhead = 12;
const nodesFlat = 8;
const ahead = gaussLegendre(nodesAhead);
const flat = gaussLegendre(nodesFlat);

/**
 * A flexible wheel in balance with its load: where the ground presses harder than the wheel can carry, the wheel
 * flattens; ahead of the flat it is as round as a rigid one.
 *
 *   hard plate: F(δ) over l = 2√(2Rδ − δ²) and b      carrying pressure p_c(δ) = F(δ)/(b l)
 *   flat: k zⁿ = p_c(δ)      entry: cos θ₁ = 1 − (δ + z)/R, end of the arc: cos θ_c = 1 − δ/R
 *   arc: σ = k Rⁿ (cos θ − cos θ₁)ⁿ, j as under a rigid wheel      flat: σ = p_c, j = j_c + (1 − f) x
 *   W = b p_c l + b R∫(σ cos θ + τ sin θ)dθ      DP = b∫τ dx + b R∫(τ cos θ − σ sin θ)dθ
 *   T = b (R − δ)∫τ dx + b R²∫τ dθ
 *
 * f = v/(Rω) with slip counted by the rolling radius, so that at no slip the flat does not slide. Contact ends where the
 * flat ends. Losses inside the wheel are not in T: add the motion resistance of the hard floor. The constants c₁, c₂, λ
 * of the soil are not used: the flat is where the stress is greatest.
 *
 * @param wheel   R unloaded, b [m]
 * @param curve   load against deflection on a hard plate; between its points straight lines, from nothing to its first
 * @param soil    constants at the wheel's width
 * @param slip    s, above −1 and up to 1
 * @param loadN   W [N], > 0
 * @param held    a state whose deflection is kept, in balance or not; left out: the balance is looked for
 * @returns       sinkage of the flat, deflection, pull, torque, and the load carried there; or why there is no balance: the load passes the measured curve, or the wheel is in up to its axle
 * @throws        UsageError when slip, load or curve is out of its range
 * @source        M. G. Bekker 1956 and J. Y. Wong, Theory of Ground Vehicles, elastic mode of a tyre, from memory; the measured curve in place of inflation and carcass pressure is drawbar's
 * @checked       tests/models/flexibleWheel.test.ts
 */
export function flexibleWheel(wheel: Drum, curve: PlateCurve, soil: WheelSoil, slip: number, loadN: number, held?: WheelState): WheelState | NoEquilibrium {
  if (!(slip > -1 && slip <= 1)) throw new UsageError(`flexibleWheel: expected a slip above −1 and up to 1, found ${slip}`);
  if (!(loadN > 0)) throw new UsageError(`flexibleWheel: expected a load above 0 N, found ${loadN}`);
  requireRising(curve);
  const most = curve.deflectionM[curve.deflectionM.length - 1] as number;
  let at: { forces: WheelForces; sinkageM: number; entryRad: number } | null = null;
  const carried = (deflectionM: number): number => {
    at = contactAt(wheel, curve, soil, slip, deflectionM);
    // past the axle: too far in any case
    return at === null ? Infinity : at.forces.loadN;
  };
  const deflectionM = depthOf(carried, loadN, most, () => ({ guess: (deflectionAt(curve, loadN) ?? most) / 2, exponent: 0.75 }), held?.deflectionM);
  const found = at as { forces: WheelForces; sinkageM: number; entryRad: number } | null;
  if (deflectionM === null || found === null) {
    const end = contactAt(wheel, curve, soil, slip, most);
    return { reason: end === null ? `the soil does not carry ${significant(loadN, 3)} N before the wheel is in up to its axle` : `the load–deflection curve ends at ${significant(1000 * most, 3)} mm, where the ground carries ${significant(end.forces.loadN, 3)} N; measure it further for ${significant(loadN, 3)} N` };
  }
  const { pullN, torqueNm, loadN: carriedN } = found.forces;
  return { loadN: held === undefined ? loadN : carriedN, pullN, torqueNm, sinkageM: found.sinkageM, deflectionM, entryRad: found.entryRad };
}

/** Forces at a deflection; null when the wheel would be in up to its axle. */
function contactAt(wheel: Drum, curve: PlateCurve, soil: WheelSoil, slip: number, deflectionM: number): { forces: WheelForces; sinkageM: number; entryRad: number } | null {
  const { radiusM: r, widthM: b } = wheel;
  const n = soil.exponent + soil.exponentBySlip * Math.abs(slip);
  const length = 2 * Math.sqrt(deflectionM * (2 * r - deflectionM));
  const carrying = loadAt(curve, deflectionM) / (b * length);
  const sinkageM = (carrying / soil.stiffness) ** (1 / n);
  if (deflectionM + sinkageM > r) return null;
  const ratio = slip >= 0 ? 1 - slip : 1 / (1 + slip);
  const friction = Math.tan(soil.frictionAngleRad);
  const cosEntry = 1 - (deflectionM + sinkageM) / r;
  const entryRad = Math.acos(cosEntry);
  const sinEntry = Math.sin(entryRad);
  const corner = Math.acos(1 - deflectionM / r);
  const span = entryRad - corner;
  const scale = soil.stiffness * r ** n;
  const mobilised = (slide: number): number => (slide >= 0 ? 1 - Math.exp(-slide / soil.shearModulusM) : Math.exp(slide / soil.shearModulusM) - 1);
  const slideAt = (angle: number, sin: number): number => r * (entryRad - angle - ratio * (sinEntry - sin));
  let [load, pull, torque] = [0, 0, 0];
  for (let i = 0; i < nodesAhead; i++) {
    // θ = θ₁ − span·u²: the root where contact begins is gone
    const u = ((ahead.nodes[i] as number) + 1) / 2;
    const angle = entryRad - span * u * u;
    const weight = (ahead.weights[i] as number) * u * span * r;
    const sin = Math.sin(angle);
    // between the bottom and a right angle ahead of it the root is the cosine, and quicker
    const cos = Math.sqrt(1 - sin * sin);
    const pressure = cos > cosEntry ? scale * Math.exp(n * Math.log(cos - cosEntry)) : 0;
    const shear = (soil.cohesionPa + pressure * friction) * mobilised(slideAt(angle, sin));
    load += weight * (pressure * cos + shear * sin);
    pull += weight * (shear * cos - pressure * sin);
    torque += weight * shear * r;
  }
  const strength = soil.cohesionPa + carrying * friction;
  const before = slideAt(corner, Math.sin(corner));
  for (let i = 0; i < nodesFlat; i++) {
    const along = (((flat.nodes[i] as number) + 1) / 2) * length;
    const shear = ((flat.weights[i] as number) / 2) * length * strength * mobilised(before + (1 - ratio) * along);
    pull += shear;
    torque += shear * (r - deflectionM);
  }
  return { forces: { loadN: b * (load + carrying * length), pullN: b * pull, torqueNm: b * torque }, sinkageM, entryRad };
}
