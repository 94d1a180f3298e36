import { mean } from "../numerics/statistics.ts";
import type { WheelModelToFit } from "./wheelSoilFit.ts";
import type { WheelObservation } from "./wheelObservations.ts";
import { plainCurves, resistiveForce, stressIntegrals } from "./wheelSoilModel.ts";
import type { FlexibleForm, Ground } from "./wheelSoilModel.ts";
import { soilParameters } from "./wheelSoilParameters.ts";
import type { Belief } from "./wheelSoilFit.ts";

/** The parameters with which every multi-start begins: (p₁₀ as a factor, n, φ [°]). */
const corners: readonly (readonly [number, number, number])[] = [[1, 1, 33], [0.4, 0.7, 28], [0.4, 1.3, 38], [2.5, 0.7, 38], [2.5, 1.3, 28]];

/**
 * What of the ground is given: b₀, the geometric mean of the wheels' widths, and γ, the mean over the runs whose bed has a
 * density.
 *
 * @param observations   the runs
 * @returns              b₀ [m] and γ [N/m³], null where no bed has a density
 * @source               common practice: b₀ amid the data, so that p₁₀ and χ are least correlated
 * @checked              tests/fitting/wheelSoilFit.test.ts
 */
export function groundUnder(observations: readonly WheelObservation[]): Ground {
  const widths = [...new Map(observations.map(({ wheel }) => [wheel.id, wheel.widthM])).values()];
  const weights = observations.flatMap(({ unitWeight }) => unitWeight ?? []);
  return { referenceWidthM: Math.exp(mean(widths.map(Math.log))), unitWeight: weights.length === 0 ? null : mean(weights) };
}

/**
 * The stress integrals ready to be fitted to these runs.
 *
 * @param observations   the runs; their wheels set the reference width, their beds the unit weight
 * @param form           how a flexible wheel is taken
 * @param beliefs        what is believed before, in the order of `soilParameters`; left out: its priors
 * @returns              model, beliefs, bounds and starts
 * @source               as `soilParameters`
 * @checked              tests/fitting/wheelSoilFit.test.ts
 */
export function stressIntegralsToFit(observations: readonly WheelObservation[], form: FlexibleForm, beliefs: readonly Belief[] = soilParameters.map(({ prior }) => prior)): WheelModelToFit {
  const lower = soilParameters.map((parameter) => parameter.lower);
  const upper = soilParameters.map((parameter) => parameter.upper);
  const inside = (value: number, j: number): number => Math.min(upper[j] as number, Math.max(lower[j] as number, value));
  const starts = corners.map(([factor, n, friction]) => beliefs.map(({ mean }, j) => inside(j === 0 ? mean + Math.log(factor) : j === 1 ? n : j === 4 ? friction : mean, j)));
  return { model: stressIntegrals(groundUnder(observations), form), beliefs, lower, upper, starts };
}

/**
 * The resistive-force wheel ready to be fitted.
 *
 *   ln ζ [kPa/m]: 1000 kPa/m within a factor of e^1.5
 *
 * @source    range of ζ for loose to dense granular media in C. Li et al. 2013, from memory
 * @checked   tests/fitting/wheelSoilFit.test.ts
 */
export const resistiveForceToFit: WheelModelToFit = { model: resistiveForce, beliefs: [{ mean: Math.log(1000), sd: 1.5 }], lower: [0], upper: [Math.log(1e5)], starts: [[Math.log(300)], [Math.log(3000)]] };

/**
 * What a plain curve can be fitted to: driven runs, their pull alone.
 *
 * @param observations   all runs
 * @returns              the driven ones, without torque and sinkage
 * @source               common practice
 * @checked              tests/fitting/wheelSoilFit.test.ts
 */
export function drivenPulls(observations: readonly WheelObservation[]): WheelObservation[] {
  return observations.filter(({ slip, measured }) => slip.value > 0 && measured.pull !== undefined).map((observation) => ({ ...observation, measured: { pull: observation.measured.pull as NonNullable<WheelObservation["measured"]["pull"]> } }));
}

/**
 * Plain saturating curves, one a wheel, ready to be fitted.
 *
 *   A 0.4 ± 0.4, ln B ln 0.15 ± 1, C 0.1 ± 0.3
 *
 * @param observations   from `drivenPulls`
 * @returns              model, beliefs, bounds and a start
 * @source               beliefs: ranges of published pull curves; common practice
 * @checked              tests/fitting/wheelSoilFit.test.ts
 */
export function plainCurvesToFit(observations: readonly WheelObservation[]): WheelModelToFit {
  const wheels = [...new Set(observations.map(({ wheel }) => wheel.id))];
  const one = [{ mean: 0.4, sd: 0.4, lower: 0, upper: 5 }, { mean: Math.log(0.15), sd: 1, lower: Math.log(0.005), upper: Math.log(2) }, { mean: 0.1, sd: 0.3, lower: -2, upper: 5 }];
  const all = wheels.flatMap(() => one);
  return { model: plainCurves(wheels), beliefs: all, lower: all.map(({ lower }) => lower), upper: all.map(({ upper }) => upper), starts: [all.map(({ mean }) => mean)] };
}
