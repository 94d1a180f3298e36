import { curveFit } from "../../numerics/curveFit.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import { mean, standardDeviation } from "../../numerics/statistics.ts";
import type { Dwell } from "./dwell.ts";
import type { PressCurve } from "./pressCurve.ts";

/** A dwell as means over stretches of equal ratio of time, from a fiftieth of it on. */
export interface DwellPoint {
  /** mean time since the load was reached [s] */
  readonly timeS: number;
  readonly displacementM: number;
  readonly standardError: number;
  readonly count: number;
}

const stretches = 24;
/** the beginning, in which the press still settles on its load, as a share of the dwell */
const start = 0.02;

/**
 * Means of the displacement over stretches of a dwell that grow by an equal ratio of time.
 *
 * @param curve   force [N] and displacement [m] from contact on
 * @param dwell   the held samples
 * @returns       up to 24 points from 1/50 of the dwell to its end; those with fewer than 2 samples are left out
 * @source        common practice
 * @checked       tests/processing/measures/creep.test.ts
 */
export function dwellPoints(curve: PressCurve, dwell: Dwell): DwellPoint[] {
  const zeroS = curve.timesS[dwell.from] as number;
  const lastS = (curve.timesS[dwell.to - 1] as number) - zeroS;
  const groups = Array.from({ length: stretches }, () => ({ times: [] as number[], values: [] as number[] }));
  for (let i = dwell.from; i < dwell.to; i++) {
    const t = (curve.timesS[i] as number) - zeroS;
    const group = groups[Math.min(stretches - 1, Math.floor((stretches * Math.log(t / (start * lastS))) / Math.log(1 / start)))];
    group?.times.push(t);
    group?.values.push(curve.displacement[i] as number);
  }
  return groups
    .filter(({ times }) => times.length >= 2)
    .map(({ times, values }) => ({ timeS: mean(times), displacementM: mean(values), standardError: standardDeviation(values) / Math.sqrt(values.length), count: values.length }));
}

/** One law fitted to a dwell. */
export interface CreepLaw {
  /** log: [δ₁, C]; exponential: [δ₀, A, τ] */
  readonly parameters: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  readonly residuals: readonly number[];
  /** corrected Akaike criterion of the weighted residuals; smaller describes better */
  readonly criterion: number;
}

/** AICc of a least-squares fit with k constants and the scatter as one more. */
function criterion(points: readonly DwellPoint[], residuals: readonly number[], constants: number): number {
  const n = points.length;
  const squares = residuals.reduce((sum, residual, i) => sum + (points[i] as DwellPoint).count * residual ** 2, 0);
  const k = constants + 1;
  return n * Math.log(squares / n) + 2 * k + (2 * k * (k + 1)) / (n - k - 1);
}

/**
 * Creep by the logarithm of time.
 *
 *   δ(t) = δ₁ + C log₁₀(t / t₁)     t₁ = first point's time; C [m] a tenfold of time
 *
 * Weighted by the number of samples behind each point; the covariance is scaled by the scatter found.
 *
 * @param points  a dwell's points, at least 6
 * @returns       δ₁ [m] and C [m], covariance, residuals, criterion
 * @source        the logarithmic law of secondary compression and of creep at low stress, common practice
 * @checked       tests/processing/measures/creep.test.ts
 */
export function logCreep(points: readonly DwellPoint[]): CreepLaw {
  const first = (points[0] as DwellPoint).timeS;
  const x = points.map((point) => Math.log10(point.timeS / first));
  const line = lineFit(x, points.map((point) => point.displacementM), points.map((point) => point.count));
  const residuals = points.map((point, i) => point.displacementM - line.intercept - line.slope * (x[i] as number));
  return { parameters: [line.intercept, line.slope], covariance: line.covariance, residuals, criterion: criterion(points, residuals, 2) };
}

/**
 * Creep that runs out.
 *
 *   δ(t) = δ₀ + A (1 − e^(−t/τ))     A [m], τ [s]
 *
 * The standard linear solid under a held load. τ is sought between the first point's time and ten times the dwell.
 *
 * @param points  a dwell's points, at least 6
 * @returns       δ₀ [m], A [m], τ [s], covariance, residuals, criterion
 * @source        standard linear solid, any text on viscoelasticity; from memory
 * @checked       tests/processing/measures/creep.test.ts
 */
export function exponentialCreep(points: readonly DwellPoint[]): CreepLaw {
  const first = points[0] as DwellPoint;
  const last = points[points.length - 1] as DwellPoint;
  const rise = last.displacementM - first.displacementM || 1e-9;
  const model = (t: number, [d0 = 0, a = 0, tau = 1]: readonly number[]): number => first.displacementM + rise * (d0 + a * (1 - Math.exp(-t / tau)));
  const fit = curveFit({
    model,
    x: points.map((point) => point.timeS),
    y: points.map((point) => point.displacementM),
    start: [0, 1, last.timeS / 3],
    standardUncertainties: points.map((point) => Math.abs(rise) / Math.sqrt(point.count)),
    lower: [-1e3, -1e3, first.timeS],
    upper: [1e3, 1e3, 10 * last.timeS],
  });
  const [d0, a, tau] = fit.parameters as [number, number, number];
  const spread = fit.reducedChiSquare ?? Number.NaN;
  const scale = [rise, rise, 1];
  return {
    parameters: [first.displacementM + rise * d0, rise * a, tau],
    covariance: fit.covariance.map((row, i) => row.map((value, j) => value * spread * (scale[i] as number) * (scale[j] as number))),
    residuals: fit.residuals,
    criterion: criterion(points, fit.residuals, 3),
  };
}
