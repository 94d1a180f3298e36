import { UsageError } from "../core/errors.ts";
import { significant } from "../core/significant.ts";
import { gaussLegendre } from "../numerics/gaussLegendre.ts";
import { depthOf } from "./depthOf.ts";
import { firstSinkage } from "./firstSinkage.ts";
import type { Drum, NoEquilibrium, WheelForces, WheelSoil, WheelState } from "./wheelSoil.ts";

/** nodes on each side of the greatest stress; leaves less than 1e-6 of the load for n from 0.13 to 2, as the test shows */
const defaultNodes = 16;

/** Nodes u on 0 … 1 of the substitution θ = end ∓ span·u², with their weights times 2u: no root at the ends of contact is left. */
interface Nodes {
  readonly squares: Float64Array;
  readonly weights: Float64Array;
}

const made = new Map<number, Nodes>();

function nodesFor(count: number): Nodes {
  let found = made.get(count);
  if (found === undefined) {
    const { nodes, weights } = gaussLegendre(count);
    found = { squares: nodes.map((x) => ((x + 1) / 2) ** 2), weights: weights.map((w, i) => (w / 2) * ((nodes[i] as number) + 1)) };
    made.set(count, found);
  }
  return found;
}

/**
 * Load, pull and torque of a rigid wheel at a sinkage and a slip.
 *
 *   θ₁ = acos(1 − z/R)      θ₂ = −acos(1 − λz/R)      θ_m = (c₁ + c₂ s) θ₁      n = n₀ + n₁|s|
 *   σ(θ) = k Rⁿ (cos θ − cos θ₁)ⁿ ahead of θ_m; behind it the same at θ₁ − (θ − θ₂)(θ₁ − θ_m)/(θ_m − θ₂)
 *   j(θ) = R [(θ₁ − θ) − f (sin θ₁ − sin θ)],  f = v/(Rω) = 1 − s driven, 1/(1 + s) braked
 *   τ = ±(c + σ tan φ)(1 − e^(−|j|/K)), sign of j
 *   W = Rb ∫(σ cos θ + τ sin θ)dθ      DP = Rb ∫(τ cos θ − σ sin θ)dθ      T = R²b ∫τ dθ
 *
 * Braked slip is s = Rω/v − 1, below zero. Even soil, no bulldozing, no side walls; the plate's pressure law stands for
 * the curved wheel, which fails for small wheels and deep ruts.
 *
 * @param wheel      R, b [m], above zero
 * @param soil       constants at the wheel's width
 * @param slip       s, above −1 and up to 1
 * @param sinkageM   z [m], above 0 and up to R
 * @param nodes      of the quadrature, on each side of θ_m
 * @returns          W [N], DP [N], T [N·m]
 * @throws           UsageError when slip or sinkage is out of its range
 * @source           J. Y. Wong and A. R. Reece, J. Terramechanics 4(1) and 4(2), 1967; rear mapping and λ: G. Ishigami et al., J. Field Robotics 24, 2007; n₁: L. Ding et al. 2011; all from memory
 * @checked          tests/models/rigidWheel.test.ts
 */
export function rigidWheelForces(wheel: Drum, soil: WheelSoil, slip: number, sinkageM: number, nodes = defaultNodes): WheelForces {
  const { radiusM: r, widthM: b } = wheel;
  if (!(slip > -1 && slip <= 1)) throw new UsageError(`rigidWheelForces: expected a slip above −1 and up to 1, found ${slip}`);
  if (!(sinkageM > 0 && sinkageM <= r)) throw new UsageError(`rigidWheelForces: expected a sinkage above 0 and up to the radius of ${r} m, found ${sinkageM}`);
  const { squares, weights } = nodesFor(nodes);
  const cosEntry = 1 - sinkageM / r;
  const entry = Math.acos(cosEntry);
  const sinEntry = Math.sin(entry);
  const exit = soil.rebound === 0 ? 0 : -Math.acos(1 - (soil.rebound * sinkageM) / r);
  const greatest = Math.min(entry, Math.max(0, (soil.stressAngle + soil.stressAngleBySlip * slip) * entry));
  const ahead = entry - greatest;
  const behind = greatest - exit;
  const n = soil.exponent + soil.exponentBySlip * Math.abs(slip);
  const scale = soil.stiffness * r ** n;
  const friction = Math.tan(soil.frictionAngleRad);
  const ratio = slip >= 0 ? 1 - slip : 1 / (1 + slip);
  const perModulus = r / soil.shearModulusM;
  const c = soil.cohesionPa;
  let [load, pull, torque] = [0, 0, 0];
  for (let i = 0; i < squares.length; i++) {
    const square = squares[i] as number;
    const weight = weights[i] as number;
    // The node ahead and the node behind carry the same pressure: that is what the mapping says.
    const front = entry - ahead * square;
    const sinFront = Math.sin(front);
    // angles of contact lie within a right angle of the bottom: the root is the cosine, and quicker
    const cosFront = Math.sqrt(1 - sinFront * sinFront);
    // contact that begins where the pressure law ends in rounding has no pressure
    const pressure = cosFront > cosEntry ? scale * Math.exp(n * Math.log(cosFront - cosEntry)) : 0;
    const strength = c + pressure * friction;
    const slideFront = entry - front - ratio * (sinEntry - sinFront);
    const shearFront = slideFront >= 0 ? strength * (1 - Math.exp(-perModulus * slideFront)) : -strength * (1 - Math.exp(perModulus * slideFront));
    const rear = exit + behind * square;
    const sinRear = Math.sin(rear);
    const cosRear = Math.sqrt(1 - sinRear * sinRear);
    const slideRear = entry - rear - ratio * (sinEntry - sinRear);
    const shearRear = slideRear >= 0 ? strength * (1 - Math.exp(-perModulus * slideRear)) : -strength * (1 - Math.exp(perModulus * slideRear));
    const wa = weight * ahead;
    const wb = weight * behind;
    load += wa * (pressure * cosFront + shearFront * sinFront) + wb * (pressure * cosRear + shearRear * sinRear);
    pull += wa * (shearFront * cosFront - pressure * sinFront) + wb * (shearRear * cosRear - pressure * sinRear);
    torque += wa * shearFront + wb * shearRear;
  }
  const area = r * b;
  return { loadN: area * load, pullN: area * pull, torqueNm: area * r * torque };
}

/**
 * A rigid wheel in balance with its load: the sinkage at which the ground carries it, with pull and torque there.
 *
 * @param wheel   R, b [m]
 * @param soil    constants at the wheel's width
 * @param slip    s, above −1 and up to 1
 * @param loadN   W [N], above zero
 * @param nodes   of the quadrature, on each side of θ_m
 * @param held    a state whose sinkage is kept, in balance or not; left out: the balance is looked for
 * @returns       sinkage, pull, torque, angles, and the load carried there; or why no sinkage up to the axle carries the load
 * @throws        UsageError when slip or load is out of its range
 * @source        as `rigidWheelForces`
 * @checked       tests/models/rigidWheel.test.ts
 */
export function rigidWheel(wheel: Drum, soil: WheelSoil, slip: number, loadN: number, nodes = defaultNodes, held?: WheelState): WheelState | NoEquilibrium {
  if (!(loadN > 0)) throw new UsageError(`rigidWheel: expected a load above 0 N, found ${loadN}`);
  let forces: WheelForces | undefined;
  const sinkageM = depthOf((at) => (forces = rigidWheelForces(wheel, soil, slip, at, nodes)).loadN, loadN, wheel.radiusM, () => firstSinkage(wheel, soil, slip, loadN), held?.sinkageM);
  if (sinkageM === null) return { reason: `the soil does not carry ${significant(loadN, 3)} N before the wheel is in up to its axle` };
  const { pullN, torqueNm, loadN: carriedN } = forces as WheelForces;
  return { loadN: held === undefined ? loadN : carriedN, pullN, torqueNm, sinkageM, deflectionM: 0, entryRad: Math.acos(1 - sinkageM / wheel.radiusM) };
}
