import { UsageError } from "../core/errors.ts";
import { significant } from "../core/significant.ts";
import { gaussLegendre } from "../numerics/gaussLegendre.ts";
import { depthOf } from "./depthOf.ts";
import type { Drum, NoEquilibrium, WheelForces, WheelState } from "./wheelSoil.ts";

const nodes = gaussLegendre(24);

/**
 * Stress per depth on a small plate that moves through dry granular soil, in units of that on a flat plate pushed
 * straight down.
 *
 *   α_z = Σ A_mn cos(2mβ + nγ) + B_mn sin(2mβ + nγ)      α_x = Σ C_mn cos(2mβ + nγ) + D_mn sin(2mβ + nγ)
 *   A₀₀ 0.206, A₁₀ 0.169, B₁₁ 0.212, B₀₁ 0.358, B₋₁₁ 0.055, C₁₁ −0.124, C₀₁ 0.253, C₋₁₁ 0.007, D₁₀ 0.088
 *
 * @param tiltRad       β, rise of the plate towards where it moves [rad], −π/2 … π/2
 * @param plungeRad     γ, direction of motion below the horizon [rad], −π/2 … π/2
 * @returns             upward α_z and backward α_x [1]
 * @source              C. Li, T. Zhang and D. I. Goldman, Science 339 (2013) 1408, generic coefficients, from memory; they add up to 1 for the flat plate pushed down, as they must
 * @checked             tests/models/resistiveForceWheel.test.ts
 */
export function granularStress(tiltRad: number, plungeRad: number): { readonly up: number; readonly back: number } {
  return stressAt(Math.cos(tiltRad), Math.sin(tiltRad), Math.cos(plungeRad), Math.sin(plungeRad));
}

/** The same from the cosines and sines of β and γ: on a rim they follow from the place without a further angle. */
function stressAt(cosTilt: number, sinTilt: number, cosPlunge: number, sinPlunge: number): { readonly up: number; readonly back: number } {
  const [cosTwice, sinTwice] = [cosTilt * cosTilt - sinTilt * sinTilt, 2 * sinTilt * cosTilt];
  const [cosCos, sinSin, sinCos, cosSin] = [cosTwice * cosPlunge, sinTwice * sinPlunge, sinTwice * cosPlunge, cosTwice * sinPlunge];
  return {
    up: 0.206 + 0.169 * cosTwice + 0.212 * (sinCos + cosSin) + 0.358 * sinPlunge + 0.055 * (cosSin - sinCos),
    back: -0.124 * (cosCos - sinSin) + 0.253 * cosPlunge + 0.007 * (cosCos + sinSin) + 0.088 * sinTwice,
  };
}

/**
 * Forces on a rolling drum from the stresses on its rim, each piece of rim taken as a small plate.
 *
 *   f = ζ |depth| (α_z up, α_x against the motion) on every piece that moves into the soil
 *
 * One constant for the soil, ζ. Dry granular soil, slow motion; no cohesion, no soil carried round.
 *
 * @param wheel      R, b [m]
 * @param stress     ζ, stress per depth on a flat plate pushed down [Pa/m], > 0
 * @param slip       s, above −1 and below 1 (a wheel that spins on the spot has no leading side)
 * @param sinkageM   z [m], above 0 and up to R
 * @returns          W, DP [N], T [N·m]
 * @throws           UsageError when an input is out of its range
 * @source           C. Li et al. 2013; on wheels: J. Slonaker et al. 2017; from memory
 * @checked          tests/models/resistiveForceWheel.test.ts
 */
export function resistiveForces(wheel: Drum, stress: number, slip: number, sinkageM: number): WheelForces {
  const { radiusM: r, widthM: b } = wheel;
  if (!(slip > -1 && slip < 1)) throw new UsageError(`resistiveForces: expected a slip above −1 and below 1, found ${slip}`);
  if (!(stress > 0 && sinkageM > 0 && sinkageM <= r)) throw new UsageError(`resistiveForces: expected a stress per depth above 0 and a sinkage above 0 and up to ${r} m, found ${stress} and ${sinkageM}`);
  const ratio = slip >= 0 ? 1 - slip : 1 / (1 + slip);
  const cosEntry = 1 - sinkageM / r;
  const entry = Math.acos(cosEntry);
  let [load, pull, torque] = [0, 0, 0];
  for (let i = 0; i < nodes.nodes.length; i++) {
    const angle = (((nodes.nodes[i] as number) + 1) / 2) * entry;
    const weight = ((nodes.weights[i] as number) / 2) * entry * r * b;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    // velocity of the rim over Rω: forward f − cos θ, downward sin θ
    const forward = ratio - cos;
    const way = forward >= 0 ? 1 : -1;
    const speed = Math.sqrt(forward * forward + sin * sin);
    const { up, back } = stressAt(cos, way * sin, Math.abs(forward) / speed, sin / speed);
    const size = weight * stress * r * (cos - cosEntry);
    const along = -way * back * size;
    load += up * size;
    pull += along;
    torque += r * (along * cos + up * size * sin);
  }
  return { loadN: load, pullN: pull, torqueNm: torque };
}

/**
 * The drum in balance with its load.
 *
 * @param wheel    R, b [m]
 * @param stress   ζ [Pa/m]
 * @param slip     s, above −1 and below 1
 * @param loadN    W [N], > 0
 * @param held     a state whose sinkage is kept, in balance or not; left out: the balance is looked for
 * @returns        sinkage, pull, torque, and the load carried there; or why there is no balance
 * @throws         UsageError when an input is out of its range
 * @source         as `resistiveForces`
 * @checked        tests/models/resistiveForceWheel.test.ts
 */
export function resistiveForceWheel(wheel: Drum, stress: number, slip: number, loadN: number, held?: WheelState): WheelState | NoEquilibrium {
  if (!(loadN > 0)) throw new UsageError(`resistiveForceWheel: expected a load above 0 N, found ${loadN}`);
  let forces: WheelForces | undefined;
  const guess = ((3 * loadN) / (2 * wheel.widthM * stress * Math.sqrt(2 * wheel.radiusM))) ** (1 / 1.5);
  const sinkageM = depthOf((at) => (forces = resistiveForces(wheel, stress, slip, at)).loadN, loadN, wheel.radiusM, () => ({ guess, exponent: 1.5 }), held?.sinkageM);
  if (sinkageM === null) return { reason: `the soil does not carry ${significant(loadN, 3)} N before the wheel is in up to its axle` };
  const { pullN, torqueNm, loadN: carriedN } = forces as WheelForces;
  return { loadN: held === undefined ? loadN : carriedN, pullN, torqueNm, sinkageM, deflectionM: 0, entryRad: Math.acos(1 - sinkageM / wheel.radiusM) };
}
