import type { Estimate } from "../core/estimate.ts";
import type { Finding } from "../core/finding.ts";
import { finding } from "../core/finding.ts";
import type { Fit, FitPoint } from "../core/fit.ts";
import { groupBy } from "../core/groupBy.ts";
import { fQuantile } from "../numerics/distributions.ts";
import { lineFit } from "../numerics/lineFit.ts";
import { mean } from "../numerics/statistics.ts";
import type { Band } from "../processing/dayResult.ts";
import { expandedUncertainty } from "../processing/expandedUncertainty.ts";
import { pointwiseBand } from "./band.ts";
import { functionOfFit, parameterEstimates } from "./parameterEstimates.ts";
import type { ParameterName } from "./parameterEstimates.ts";
import { sharedEffects, unsharedUncertainty } from "./sharedEffects.ts";

/** One drop: how fast it came and what share of the speed came back. */
export interface RestitutionPoint {
  readonly run: string;
  readonly speed: Estimate;
  readonly restitution: Estimate;
  /** as set on the run sheet; null = not stated */
  readonly heightM: number | null;
}

const names: readonly ParameterName[] = [
  { name: "restitutionAt1mps", symbol: "e₁", unit: "1" },
  { name: "decline", symbol: "q", unit: "1" },
];
const fewestHeights = 3;
const bandPoints = 61;
/** A mean that leaves the curve by less than this share is nobody's concern. */
const leastDeparture = 0.01;

/**
 * Restitution of one wheel against its impact speed.
 *
 *   e = e₁ (v / 1 m/s)^(−q)        ln e over ln v, weights 1/(u_e²/e² + q² u_v²/v²), covariance times max(1, χ²/ν)
 *
 * e₁ [1]: restitution at 1 m/s; q [1]: 0 for a spring with a damper, 1/4 for a body that yields. An empirical curve between
 * the speeds measured. u: each run's own uncertainties; what runs share is added after. Undetermined with fewer than three
 * heights.
 *
 * @param points  the drops that count; speed and restitution need a value and an uncertainty
 * @param refused drops that do not count, with their reasons
 * @returns       the Fit; a finding where the heights' means leave the curve by more than their scatter explains
 * @source        q = 1/4: K. L. Johnson, Contact Mechanics, 11.4; lack of fit: Draper & Smith, Applied Regression Analysis (both from memory)
 * @checked       tests/fitting/restitutionFit.test.ts
 */
export function restitutionFit(points: readonly RestitutionPoint[], refused: readonly FitPoint[]): Fit {
  const speeds = points.map((point) => point.speed.value);
  const restitutions = points.map((point) => point.restitution.value);
  const kept = points.map((point, i): FitPoint => ({ run: point.run, x: speeds[i] as number, y: restitutions[i] as number, yUncertainty: unsharedUncertainty(point.restitution), kept: true, reason: "" }));
  const shape = { model: "restitution against impact speed", formula: "e = e₁ (v / 1 m/s)^(−q); v [m/s], e₁ and q without unit", points: [...kept, ...refused] };
  const heights = new Set(points.map((point) => point.heightM ?? point.speed.value.toPrecision(1)));
  if (heights.size < fewestHeights) return { ...shape, parameters: [], covariance: [], residuals: [], degreesOfFreedom: Math.max(0, points.length - 2), verdict: "undetermined", sentence: `${heights.size} ${heights.size === 1 ? "height" : "heights"} with usable drops; the curve needs at least ${fewestHeights}.`, findings: [] };
  const x = speeds.map(Math.log);
  const y = restitutions.map(Math.log);
  let slope = 0;
  let line = lineFit(x, y);
  // The doubt of the speed counts through the slope, which settles at once.
  for (let pass = 0; pass < 3; pass++) {
    line = lineFit(x, y, points.map((point) => weight(point, slope)));
    slope = line.slope;
  }
  const widening = line.residualSd ** 2 >= 1 ? 1 : 1 / line.residualSd ** 2;
  const e1 = Math.exp(line.intercept);
  // From ln e₁ and the slope to e₁ and q.
  const unshared = [[e1 * e1, -e1], [-e1, 1]].map((row, i) => row.map((factor, j) => factor * widening * ((line.covariance[i] as readonly number[])[j] as number)));
  const onRestitution = sharedEffects(points.map((point) => point.restitution));
  const onSpeed = sharedEffects(points.map((point) => point.speed));
  const weights = points.map((point) => weight(point, slope));
  const shifts = [...onRestitution, ...onSpeed.filter((cause) => !onRestitution.some((known) => known.cause === cause.cause))].map((cause) => {
    const effect = (from: typeof onSpeed, i: number): number => from.find((known) => known.cause === cause.cause)?.effects[i] ?? 0;
    const moved = lineFit(x, points.map((_, i) => effect(onRestitution, i) / (restitutions[i] as number) - (slope * effect(onSpeed, i)) / (speeds[i] as number)), weights);
    return { ...cause, shifts: [e1 * moved.intercept, -moved.slope] };
  });
  const ownCause = `own uncertainty and scatter of ${points.map((point) => point.run).join(", ")}`;
  const method = `weighted least squares over ${points.length} drops from ${heights.size} heights`;
  const estimates = parameterEstimates([e1, -slope], names, unshared, line.degreesOfFreedom, ownCause, shifts, method);
  const residuals = points.map((_, i) => (restitutions[i] as number) - e1 * (speeds[i] as number) ** slope);
  const decline = estimates.parameters[1]?.estimate as Estimate;
  const shown = Math.abs(decline.value) > (expandedUncertainty(decline)?.half ?? Infinity);
  const range = `between ${Math.min(...speeds).toFixed(2)} and ${Math.max(...speeds).toFixed(2)} m/s`;
  return {
    ...shape, ...estimates, residuals,
    degreesOfFreedom: line.degreesOfFreedom,
    verdict: "determined",
    sentence: shown ? `The restitution ${decline.value > 0 ? "falls" : "rises"} with the impact speed ${range}: by ${(100 * Math.abs(1 - 2 ** -decline.value)).toFixed(1)} % where the speed doubles.` : `No change of the restitution with the impact speed can be told ${range}.`,
    findings: lackOfFit(points, x, y, line.intercept, slope),
  };
}

function weight(point: RestitutionPoint, slope: number): number {
  const own = unsharedUncertainty(point.restitution) / point.restitution.value;
  const bySpeed = (slope * unsharedUncertainty(point.speed)) / point.speed.value;
  return 1 / Math.max(1e-12, own ** 2 + bySpeed ** 2);
}

/** Whether the means of the heights leave the curve by more than the drops of one height scatter. */
function lackOfFit(points: readonly RestitutionPoint[], x: readonly number[], y: readonly number[], intercept: number, slope: number): Finding[] {
  const groups = [...groupBy(points.map((point, i) => ({ key: String(point.heightM), residual: (y[i] as number) - intercept - slope * (x[i] as number) })), (one) => one.key).values()].map((group) => group.map((one) => one.residual));
  const between = groups.length - 2;
  const within = points.length - groups.length;
  if (between < 1 || within < 3) return [];
  const pure = groups.flatMap((group) => group.map((r) => (r - mean(group)) ** 2)).reduce((a, b) => a + b, 0) / within;
  const lack = groups.reduce((sum, group) => sum + group.length * mean(group) ** 2, 0) / between;
  const ratio = lack / pure;
  const limit = fQuantile(0.99, between, within);
  const furthest = Math.max(...groups.map((group) => Math.abs(mean(group))));
  if (!(ratio > limit && furthest > leastDeparture)) return [];
  return [finding("restitution-off-curve", "look", `The mean restitutions of the heights leave the fitted curve by up to ${(100 * furthest).toFixed(1)} %, more than the drops of one height scatter. Read it between its heights only, and look at the heights one by one`, { measured: ratio, limit })];
}

/**
 * Restitution at an impact speed, read from the fitted curve.
 *
 *   e = e₁ v^(−q)
 *
 * @param fit      a determined Fit from `restitutionFit`
 * @param speedMps v [m/s]
 * @returns        e [1] with its budget
 * @source         JCGM 100:2008, 5.2.2
 * @checked        tests/fitting/restitutionFit.test.ts
 */
export function restitutionAt(fit: Fit, speedMps: number): Estimate<"1"> {
  const [e1, q] = fit.parameters.map((parameter) => parameter.estimate.value) as [number, number];
  const value = e1 * speedMps ** -q;
  return functionOfFit(fit, value, [value / e1, -value * Math.log(speedMps)], "1", "read from the fitted curve of restitution against impact speed");
}

/**
 * The curve with its pointwise 95 % band between the least and the greatest impact speed measured.
 *
 *   value ± k u
 *
 * @param fit from `restitutionFit`
 * @returns   61 speeds with value, low and high; null when the fit is not determined
 * @source    JCGM 100:2008, G.3
 * @checked   tests/fitting/restitutionFit.test.ts
 */
export function restitutionBand(fit: Fit): Band | null {
  if (fit.verdict !== "determined") return null;
  const speeds = fit.points.filter((point) => point.kept).map((point) => point.x);
  const [from, to] = [Math.min(...speeds), Math.max(...speeds)];
  const x = Array.from({ length: bandPoints }, (_, i) => from + ((to - from) * i) / (bandPoints - 1));
  return pointwiseBand(x, x.map((speed) => restitutionAt(fit, speed)));
}
