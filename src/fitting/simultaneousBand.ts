import type { Estimate } from "../core/estimate.ts";
import { cholesky } from "../numerics/linearAlgebra.ts";
import { seededRandom } from "../numerics/random.ts";
import { mean, quantile } from "../numerics/statistics.ts";
import type { Band, SlipCurve } from "../processing/dayResult.ts";
import { bandOf } from "./band.ts";
import { bandSlips, constantsOf, curveAtSlip } from "./readSlipCurve.ts";
import { slipShape } from "./slipShapes.ts";

const draws = 2000;
const seed = 20_000;

/**
 * The curve with the band that holds the whole of it at once with 95 %.
 *
 *   value ± q u(s)        q: 95 % point of max over s of |δ(s)| / u(s)
 *
 * δ is drawn 2000 times: the constants' own scatter normal over √(χ²_ν/ν), ν their mean over the slips, every
 * shared cause normal. Always wider than the
 * pointwise band and narrower than Scheffé's √(p F(0.95; p, ν)) u, which guards every function of p constants, not this one.
 *
 * @param curve  a fitted curve over slip
 * @returns      61 slips with value, low and high; null when the fit is not determined
 * @source       simulated critical value for a family of linear functions: D. Edwards and J. J. Berry, Biometrics 43 (1987) 913, from memory
 * @checked      tests/fitting/simultaneousBand.test.ts
 */
export function simultaneousBand(curve: SlipCurve): Band | null {
  const { fit } = curve;
  if (fit.verdict !== "determined") return null;
  const shape = slipShape(curve.shape, curve.knots);
  const constants = constantsOf(curve);
  const x = bandSlips(curve);
  const estimates = x.map((slip) => curveAtSlip(curve, slip));
  const slopes = x.map((slip) => shape.slopes(slip, constants).byConstants);
  const shifts = sharedShifts(curve);
  const unshared = fit.covariance.map((row, i) => row.map((value, j) => value - shifts.reduce((sum, shift) => sum + (shift[i] as number) * (shift[j] as number), 0)));
  const root = cholesky(unshared);
  if (root === null) return null;
  // per slip: what each independent normal number moves the curve by, in its own standard uncertainties
  const scale = estimates.map((estimate) => 1 / (estimate.standardUncertainty as number));
  const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, value, i) => sum + value * (b[i] as number), 0);
  const own = slopes.map((slope, k) => constants.map((_, j) => (scale[k] as number) * dot(slope, root.map((row) => row[j] ?? 0))));
  const shared = slopes.map((slope, k) => shifts.map((shift) => (scale[k] as number) * dot(slope, shift)));
  const freedom = Math.max(1, Math.round(mean(estimates.map(ownFreedom))));
  const random = seededRandom(seed);
  const greatest = Array.from({ length: draws }, () => {
    let chiSquare = 0;
    for (let i = 0; i < freedom; i++) chiSquare += random.normal() ** 2;
    const stretch = Math.sqrt(freedom / chiSquare);
    const ownDraw = constants.map(() => stretch * random.normal());
    const sharedDraw = shifts.map(() => random.normal());
    return Math.max(...x.map((_, k) => Math.abs(dot(own[k] as number[], ownDraw) + dot(shared[k] as number[], sharedDraw))));
  });
  const factor = quantile(greatest, 0.95);
  return bandOf(x, estimates, () => factor);
}

/** Degrees of freedom of what is not shared. */
function ownFreedom({ budget, degreesOfFreedom }: Estimate): number {
  const own = budget.filter((row) => row.sharedBy === null);
  const fourth = own.reduce((sum, row) => sum + row.effect ** 4 / row.degreesOfFreedom, 0);
  return fourth === 0 ? degreesOfFreedom : own.reduce((sum, row) => sum + row.effect ** 2, 0) ** 2 / fourth;
}

/** Per shared cause, its shift of each constant. */
function sharedShifts({ fit }: SlipCurve): number[][] {
  const causes = [...new Set(fit.parameters.flatMap(({ estimate }) => estimate.budget.filter((row) => row.sharedBy !== null).map((row) => row.cause)))];
  return causes.map((cause) => fit.parameters.map(({ estimate }) => estimate.budget.find((row) => row.cause === cause)?.effect ?? 0));
}
