import type { Estimate } from "../core/estimate.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit, FitPoint, Verdict } from "../core/fit.ts";
import { undetermined } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import { pullSlip, pullSlipSlopes } from "../models/pullSlip.ts";
import type { PullSlip } from "../models/pullSlip.ts";
import { curveFit } from "../numerics/curveFit.ts";
import { studentTQuantile } from "../numerics/distributions.ts";
import { leastSquares } from "../numerics/linearAlgebra.ts";
import type { Band } from "../processing/dayResult.ts";
import { functionOfFit, parameterEstimates } from "./parameterEstimates.ts";
import type { ParameterName } from "./parameterEstimates.ts";
import { sharedEffects, unsharedUncertainty } from "./sharedEffects.ts";

/** One driven run: its slip and its pull coefficient. */
export interface PullPoint {
  readonly run: string;
  readonly slip: Estimate;
  readonly pull: Estimate;
  /** the slip that was set; null = not stated */
  readonly setSlip: number | null;
}

const names: readonly ParameterName[] = [
  { name: "rise", symbol: "A", unit: "1" },
  { name: "slipScale", symbol: "B", unit: "1" },
  { name: "resistance", symbol: "C", unit: "1" },
];
const lower = [0, 0.005, -2];
const upper = [5, 2, 5];
/** different slips below which three constants mean nothing */
const fewestSlips = 4;
/** measured slips closer than this are one slip, where none was set */
const sameSlip = 0.02;
/** how far past the measured slips the curve may be read, because a set slip is met only nearly */
const reach = 0.01;
const bandPoints = 61;
/** smallest standard uncertainty a point may claim; keeps one point from owning the fit */
const floor = 1e-6;

/**
 * Saturating curve of the pull coefficient over driven slip, for the runs of one wheel at one load.
 *
 *   P/W = A (1 − e^(−s/B)) − C        weights 1/(u_P² + (dP/ds)² u_s² + τ²)
 *
 * u: each run's own uncertainties, without what runs share. τ: scatter between runs, zero unless the points scatter
 * more than u explains, then as large as makes χ² equal its degrees of freedom. What runs share (calibration, rolling
 * radius) is added after, as a shift of all points at once. Undetermined with fewer than 4 different slips, or when A
 * or B is no larger than its uncertainty; "at limit" when a constant ended on its bound.
 *
 * @param points    the driven runs that count; slip and pull need an uncertainty
 * @param refused   points that do not count, with their reasons; carried along
 * @returns         the Fit, parameters rise A, slipScale B, resistance C
 * @source          effective variance: J. Orear, Am. J. Phys. 50 (1982) 912; τ: R. C. Paule and J. Mandel, J. Res. NBS 87 (1982) 377; both from memory
 * @checked         tests/fitting/pullSlipFit.test.ts
 */
export function pullSlipFit(points: readonly PullPoint[], refused: readonly FitPoint[]): Fit {
  const slips = points.map((point) => point.slip.value);
  const pulls = points.map((point) => point.pull.value);
  const own = points.map((point) => Math.max(floor, unsharedUncertainty(point.pull)));
  const kept = points.map((point, i): FitPoint => ({ run: point.run, x: slips[i] as number, y: pulls[i] as number, yUncertainty: own[i] as number, kept: true, reason: "" }));
  const shape = { model: "saturating pull–slip curve", formula: "P/W = A (1 − e^(−s/B)) − C; A, B, C without unit", points: [...kept, ...refused] };
  const none = (sentence: string, verdict: Verdict = "undetermined", findings: readonly Finding[] = []): Fit => ({ ...shape, parameters: [], covariance: [], residuals: [], degreesOfFreedom: Math.max(0, points.length - 3), verdict, sentence, findings });
  const different = differentSlips(points);
  if (different < fewestSlips) return none(`${different} different driven ${different === 1 ? "slip" : "slips"}; the curve needs at least ${fewestSlips}.`);

  const toModel = (p: readonly number[]): PullSlip => ({ rise: p[0] as number, slipScale: p[1] as number, resistance: p[2] as number });
  const fitWith = (start: readonly number[], doubts: readonly number[]) =>
    curveFit({ model: (x, p) => pullSlip(x, toModel(p)), jacobian: (x, p) => [...pullSlipSlopes(x, toModel(p)).byConstants], x: slips, y: pulls, start, standardUncertainties: doubts, lower, upper });
  const doubtsAt = (p: readonly number[], between: number): number[] =>
    points.map((point, i) => Math.hypot(own[i] as number, pullSlipSlopes(slips[i] as number, toModel(p)).bySlip * unsharedUncertainty(point.slip), between));

  const least = Math.min(...pulls);
  let p: readonly number[] = fitWith([Math.max(0.05, Math.max(...pulls) - least), 0.15, -least], own).parameters;
  const degreesOfFreedom = points.length - 3;
  const solve = (between: number) => {
    let result = fitWith(p, doubtsAt(p, between));
    for (let pass = 0; pass < 2; pass++) result = fitWith(result.parameters, doubtsAt(result.parameters, between));
    return result;
  };
  let result = solve(0);
  let between = 0;
  if (result.sumOfSquares > degreesOfFreedom) {
    let low = 0;
    let high = Math.max(...pulls) - least + Math.max(...own);
    for (let step = 0; step < 25; step++) {
      between = (low + high) / 2;
      result = solve(between);
      if (result.sumOfSquares > degreesOfFreedom) low = between;
      else high = between;
    }
  }
  p = result.parameters;
  if (!result.converged) return none(`The fit did not settle: ${result.reason}.`);
  const bound = names.filter((_, i) => result.atLimit[i]);
  if (bound.length > 0) return none(`${bound.map((name) => name.symbol).join(" and ")} ended on the limit of what is allowed; these slips do not show the shape of the curve.`, "atLimit");

  const doubts = doubtsAt(p, between);
  const slopes = slips.map((slip) => pullSlipSlopes(slip, toModel(p)));
  const rows = slopes.map((slope) => slope.byConstants);
  const weights = doubts.map((doubt) => 1 / doubt ** 2);
  const unshared = leastSquares(rows, pulls, weights).covarianceFactor;
  const pullCauses = sharedEffects(points.map((point) => point.pull));
  const slipCauses = sharedEffects(points.map((point) => point.slip));
  const causes = [...pullCauses, ...slipCauses.filter((cause) => !pullCauses.some((known) => known.cause === cause.cause))];
  const shifts = causes.map((cause) => {
    const onPull = pullCauses.find((known) => known.cause === cause.cause)?.effects;
    const onSlip = slipCauses.find((known) => known.cause === cause.cause)?.effects;
    const moved = slopes.map((slope, i) => (onPull?.[i] ?? 0) - slope.bySlip * (onSlip?.[i] ?? 0));
    return { ...cause, shifts: leastSquares(rows, moved, weights).solution };
  });
  const method = `weighted least squares over ${points.length} runs at ${different} slips`;
  // named after the runs: rows of equal cause cancel in a difference, and the scatter of two curves must not
  const ownCause = `own uncertainty and scatter of ${points.map((point) => point.run).join(", ")}`;
  const estimates = parameterEstimates(p, names, unshared, degreesOfFreedom, ownCause, shifts, method);
  const loose = estimates.parameters.slice(0, 2).filter(({ estimate }) => !((estimate.standardUncertainty ?? Infinity) < Math.abs(estimate.value)));
  const findings: Finding[] = [];
  if (between > 0) findings.push(finding("scatter-between-runs", "note", `The runs scatter more than their own uncertainties explain; a scatter between runs of ${between.toPrecision(2)} in the pull coefficient is added to every point.`, { measured: between }));
  const residuals = slips.map((slip, i) => (pulls[i] as number) - pullSlip(slip, toModel(p)));
  const fit: Fit = { ...shape, ...estimates, residuals, degreesOfFreedom, verdict: "determined", sentence: "", findings };
  if (loose.length > 0) return { ...fit, verdict: "undetermined", sentence: `${loose.map((one) => one.symbol).join(" and ")} is no larger than its own uncertainty; the slips do not reach far enough to show where the pull levels off.` };
  return { ...fit, sentence: `${points.length} runs at ${different} slips from ${Math.min(...slips).toFixed(3)} to ${Math.max(...slips).toFixed(3)} determine all three constants.` };
}

/**
 * Pull coefficient at a slip, read from a fitted curve.
 *
 *   u² = gᵀ C g over the constants
 *
 * @param fit    from `pullSlipFit`
 * @param slip   driven slip [1]
 * @returns      the Estimate [1]; undetermined when the fit is, or when the slip lies more than 0.01 outside the slips measured
 * @source       JCGM 100:2008, 5.2.2
 * @checked      tests/fitting/pullSlipFit.test.ts
 */
export function pullAt(fit: Fit, slip: number): Estimate<"1"> {
  if (fit.verdict !== "determined") return undetermined("1", `no curve: ${fit.sentence}`);
  const [low, high] = slipRange(fit);
  if (!(slip >= low - reach && slip <= high + reach)) return undetermined("1", `slip ${slip} lies outside the slips measured, ${low.toFixed(3)} to ${high.toFixed(3)}; the curve is not carried beyond them`);
  const [rise, slipScale, resistance] = fit.parameters.map((parameter) => parameter.estimate.value) as [number, number, number];
  const constants = { rise, slipScale, resistance };
  const beyond = slip < low ? low - slip : Math.max(0, slip - high);
  const method = `read from the fitted pull–slip curve${beyond > 0 ? `, ${beyond.toFixed(4)} beyond the slips measured` : ""}`;
  return functionOfFit(fit, pullSlip(slip, constants), pullSlipSlopes(slip, constants).byConstants, "1", method);
}

/**
 * The curve with its pointwise 95 % band, between the least and the greatest slip measured.
 *
 *   value ± t(0.975, ν) u
 *
 * Pointwise: at any one slip the true curve lies inside with 95 %; the whole true curve at once does so less often.
 *
 * @param fit   from `pullSlipFit`
 * @returns     61 slips with value, low and high; null when the fit is not determined
 * @source      JCGM 100:2008, G.3
 * @checked     tests/fitting/pullSlipFit.test.ts
 */
export function pullBand(fit: Fit): Band | null {
  if (fit.verdict !== "determined") return null;
  const [from, to] = slipRange(fit);
  const x = Array.from({ length: bandPoints }, (_, i) => from + ((to - from) * i) / (bandPoints - 1));
  const estimates = x.map((slip) => pullAt(fit, slip));
  const half = estimates.map((estimate) => studentTQuantile(0.975, estimate.degreesOfFreedom) * (estimate.standardUncertainty ?? Number.NaN));
  const value = estimates.map((estimate) => estimate.value);
  return { x, value, low: value.map((v, i) => v - (half[i] as number)), high: value.map((v, i) => v + (half[i] as number)) };
}

function slipRange(fit: Fit): [number, number] {
  const slips = fit.points.filter((point) => point.kept).map((point) => point.x);
  return [Math.min(...slips), Math.max(...slips)];
}

/** Set slips where every run states one, else groups of measured slips. */
function differentSlips(points: readonly PullPoint[]): number {
  if (points.every((point) => point.setSlip !== null)) return new Set(points.map((point) => point.setSlip)).size;
  const rising = points.map((point) => point.slip.value).sort((a, b) => a - b);
  return rising.filter((slip, i) => i === 0 || slip - (rising[i - 1] as number) > sameSlip).length;
}
