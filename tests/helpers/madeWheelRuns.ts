import type { Estimate } from "../../src/core/estimate.ts";
import type { WheelObservation, WheelQuantity, WheelSubject } from "../../src/fitting/wheelObservations.ts";
import { seededRandom } from "../../src/numerics/random.ts";

/** Soil as it truly is. The forces are summed here by the midpoint rule, apart from the models in src/. */
export interface MadeSoil {
  readonly pressureAt10mmPa: number;
  readonly n: number;
  readonly cohesionPa: number;
  readonly frictionRad: number;
  readonly modulusM: number;
  readonly c1: number;
  readonly c2: number;
  readonly slipSinkage: number;
  /** share of the rut by which the soil springs back behind the wheel */
  readonly rebound: number;
  /** share of the lugs' height that shears; the rest pushes as blades against soil of this weight [N/m³] */
  readonly lugs?: { readonly share: number; readonly unitWeight: number };
}

export const madeSoil: MadeSoil = { pressureAt10mmPa: 9000, n: 1.05, cohesionPa: 400, frictionRad: (33 * Math.PI) / 180, modulusM: 0.012, c1: 0.4, c2: 0.18, slipSinkage: 0.2, rebound: 0 };
export const madeWheel: WheelSubject = { id: "M1", rimM: 0.15, widthM: 0.1, lugs: 0, lugHeightM: 0, curve: null };

function forces(soil: MadeSoil, wheel: WheelSubject, slip: number, z: number): readonly [number, number, number] {
  const r = wheel.rimM + (soil.lugs?.share ?? 0) * wheel.lugHeightM;
  const blade = (1 - (soil.lugs?.share ?? 0)) * wheel.lugHeightM;
  const passive = (1 + Math.sin(soil.frictionRad)) / (1 - Math.sin(soil.frictionRad));
  // earth pressure of Rankine from the blade's top to its foot, on each of the lugs that stand on a metre of the rim
  const pushed = (wheel.lugs / (2 * Math.PI * r)) * blade * (2 * soil.cohesionPa * Math.sqrt(passive) + ((soil.lugs?.unitWeight ?? 0) * passive * blade) / 2);
  const entry = Math.acos(1 - z / r);
  const exit = -Math.acos(1 - (soil.rebound * z) / r);
  const peak = Math.min(entry, Math.max(0, (soil.c1 + soil.c2 * slip) * entry));
  const n = soil.n + soil.slipSinkage * Math.abs(slip);
  const ratio = slip >= 0 ? 1 - slip : 1 / (1 + slip);
  const count = 600;
  let [w, d, t] = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    const theta = exit + ((entry - exit) * (i + 0.5)) / count;
    const mapped = theta >= peak ? theta : entry - ((theta - exit) / (peak - exit)) * (entry - peak);
    const sigma = soil.pressureAt10mmPa * 0.01 ** -soil.n * Math.max(0, r * (Math.cos(mapped) - Math.cos(entry))) ** n;
    const j = r * (entry - theta - ratio * (Math.sin(entry) - Math.sin(theta)));
    const tau = Math.sign(j) * (soil.cohesionPa + pushed + sigma * Math.tan(soil.frictionRad)) * (1 - Math.exp(-Math.abs(j) / soil.modulusM));
    w += sigma * Math.cos(theta) + tau * Math.sin(theta);
    d += tau * Math.cos(theta) - sigma * Math.sin(theta);
    t += tau;
  }
  const piece = (r * wheel.widthM * (entry - exit)) / count;
  return [w * piece, d * piece, t * piece * r];
}

/** What the wheel truly does: pull/W, torque/(R W), sinkage/R. */
export function trueShares(soil: MadeSoil, wheel: WheelSubject, slip: number, loadN: number): Readonly<Record<WheelQuantity, number>> {
  let [low, high] = [1e-5, wheel.rimM * 0.9];
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    if (forces(soil, wheel, slip, middle)[0] < loadN) low = middle;
    else high = middle;
  }
  const [, pull, torque] = forces(soil, wheel, slip, low);
  const tip = wheel.rimM + wheel.lugHeightM;
  return { pull: pull / loadN, torque: torque / (tip * loadN), sinkage: low / tip };
}

const exact = (value: number, u: number, cause: string): Estimate<"1"> => ({ value, standardUncertainty: u, unit: "1", degreesOfFreedom: Infinity, method: "made", budget: [{ cause, effect: u, sharedBy: null, degreesOfFreedom: Infinity }] });

/** How a made day is laid out. */
export interface MadeRuns {
  readonly seed: number;
  readonly loads: readonly number[];
  readonly slips: readonly number[];
  readonly noise?: Readonly<Record<WheelQuantity, number>>;
  readonly wheels?: readonly WheelSubject[];
  readonly soil?: MadeSoil;
  /** so many prepared beds, run on in turn; each deviates in all its runs alike, by this standard deviation of a share */
  readonly beds?: { readonly count: number; readonly spread: Readonly<Record<WheelQuantity, number>> };
}

/** Runs at each load and slip with independent noise on every share. */
export function madeWheelRuns({ seed, loads, slips, wheels = [madeWheel], soil = madeSoil, noise = { pull: 0.006, torque: 0.008, sinkage: 0.003 }, beds }: MadeRuns): WheelObservation[] {
  const random = seededRandom(seed);
  const deviations = Array.from({ length: beds?.count ?? 0 }, () => ({ pull: random.normal(), torque: random.normal(), sinkage: random.normal() }));
  let made = 0;
  return wheels.flatMap((wheel) => loads.flatMap((loadN) => slips.map((slip): WheelObservation => {
    const run = `${wheel.id}-${loadN}-${slip}`;
    const truth = trueShares(soil, wheel, slip, loadN);
    const at = beds === undefined ? null : made++ % beds.count;
    const shift = (quantity: WheelQuantity): number => (at === null || beds === undefined ? 0 : beds.spread[quantity] * (deviations[at] as Record<WheelQuantity, number>)[quantity]);
    const draw = (quantity: WheelQuantity): Estimate<"1"> => exact(truth[quantity] + shift(quantity) + noise[quantity] * random.normal(), noise[quantity], `noise of ${quantity}, ${run}`);
    return { run, bed: at === null ? null : `B${at}`, unitWeight: soil.lugs?.unitWeight ?? null, wheel, slip: exact(slip, 1e-4, `slip, ${run}`), loadN, setLoadN: loadN, measured: { pull: draw("pull"), torque: draw("torque"), sinkage: draw("sinkage") } };
  })));
}
