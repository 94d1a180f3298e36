import { identifiability } from "../../src/fitting/identifiability.ts";
import { soilParameters } from "../../src/fitting/wheelSoilParameters.ts";
import { wheelSoilFit } from "../../src/fitting/wheelSoilFit.ts";
import { stressIntegralsToFit } from "../../src/fitting/wheelSoilStart.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { madeWheel, madeWheelRuns, trueShares } from "../../tests/helpers/madeWheelRuns.ts";
import type { MadeRuns, MadeSoil } from "../../tests/helpers/madeWheelRuns.ts";
import { tally } from "../coverage/tally.ts";
import type { Tally } from "../coverage/tally.ts";

/** Made days of wheel runs: how many loads they have. */
export const recoveryDays = {
  "one load": { loads: [60], slips: [-0.15, -0.05, 0.02, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7] },
  "three loads": { loads: [30, 60, 100], slips: [-0.1, 0.05, 0.1, 0.2, 0.4, 0.6] },
} as const satisfies Record<string, Pick<MadeRuns, "loads" | "slips">>;
export type RecoveryDay = keyof typeof recoveryDays;
export interface RecoveryTask {
  readonly day: RecoveryDay;
  readonly seed: number;
}

/** five beds in turn, so that each sees other slips and loads; each deviates by as much as its runs scatter */
const beds = { count: 5, spread: { pull: 0.004, torque: 0.005, sinkage: 0.003 } };
/** A wheel that sinks deeper is not run: it would dig itself in. */
const deepest = 0.35;
/** what wheels without lugs, all of one width and rigid, do not touch */
const untouched = ["widthShare", "lugShare", "flattening"];

/** A soil as the beliefs say soils are, on the fitted scale; drawn again until the wheel can be run on it. */
function drawnSoil(seed: number): { readonly soil: MadeSoil; readonly fitted: readonly number[] } {
  const random = seededRandom(seed);
  for (;;) {
    const fitted = soilParameters.map(({ prior }) => prior.mean + prior.sd * random.normal());
    const inside = soilParameters.every(({ lower, upper }, j) => (fitted[j] as number) > lower && (fitted[j] as number) < upper);
    const inUnit = new Map(soilParameters.map(({ name, toUnit }, j) => [name, toUnit(fitted[j] as number)]));
    const at = (name: string): number => inUnit.get(name) as number;
    const soil = { pressureAt10mmPa: at("pressureAt10mm"), n: at("sinkageExponent"), cohesionPa: at("cohesion"), frictionRad: at("frictionAngle"), modulusM: at("shearModulus"), c1: at("stressAngle"), c2: at("stressAngleBySlip"), slipSinkage: at("exponentBySlip"), rebound: at("rebound") };
    if (inside && [30, 100].every((load) => [-0.15, 0.7].every((slip) => trueShares(soil, madeWheel, slip, load).sinkage < deepest))) return { soil, fitted };
  }
}

/** Body of a thread: one made day, fitted; each constant that is printed against its truth, and those that are not. */
export default function recovered({ day, seed }: RecoveryTask): Tally {
  const { soil, fitted: truths } = drawnSoil(1000 + seed);
  const runs = madeWheelRuns({ seed, soil, beds, ...recoveryDays[day] });
  const toFit = stressIntegralsToFit(runs, "wider circle");
  const fit = wheelSoilFit(runs, toFit);
  const { parameters } = identifiability(soilParameters.map(({ symbol }) => symbol), toFit.beliefs, fit.covariance);
  const into = tally();
  soilParameters.forEach(({ name, symbol }, j) => {
    if (untouched.includes(name)) return;
    const error = (fit.fitted[j] as number) - (truths[j] as number);
    const standardUncertainty = Math.sqrt((fit.covariance[j] as readonly number[])[j] as number);
    if (parameters[j]?.share === "undetermined") into.missing.push(symbol);
    else into.trials.push({ name: symbol, where: `${parameters[j]?.share}, ${day} ${seed}`, error, standardUncertainty, inside: Math.abs(error) <= 1.959964 * standardUncertainty });
  });
  return into;
}
