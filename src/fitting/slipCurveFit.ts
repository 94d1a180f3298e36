import type { Estimate } from "../core/estimate.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit, FitPoint, Verdict } from "../core/fit.ts";
import { finding } from "../core/finding.ts";
import { covarianceParts } from "../numerics/covarianceParts.ts";
import { vectorFit } from "../numerics/vectorFit.ts";
import type { VectorFit } from "../numerics/vectorFit.ts";
import { mean } from "../numerics/statistics.ts";
import { whitening } from "../numerics/whitening.ts";
import { bedPlan, firstScatter, runsShow, scatterOf, scatterParts, scatterSizes, wholeCovariance } from "./curveScatter.ts";
import type { CurveScatter } from "./curveScatter.ts";
import { parameterEstimatesByCause } from "./parameterEstimates.ts";
import { sharedEffects, unsharedUncertainty } from "./sharedEffects.ts";
import type { SlipShape } from "./slipShapes.ts";

/** One run: its slip and what is fitted over it. */
export interface SlipPoint {
  readonly run: string;
  /** driven slip; minus the skid of a braked run */
  readonly slip: Estimate;
  readonly value: Estimate;
  /** the slip that was set; null = not stated */
  readonly setSlip: number | null;
  /** the prepared bed it was run on; null = not named */
  readonly bed: string | null;
  /** how many points of one run this is one of: a sweep gives several; absent = one */
  readonly ofRun?: number;
}

/** The fit of a curve, with the scatter it found beyond the runs' own uncertainties. */
export interface SlipFit extends Fit {
  /** null where nothing could be fitted */
  readonly scatter: CurveScatter | null;
}

/** different slips below which no curve means anything */
const fewestSlips = 4;
/** measured slips closer than this are one slip, where none was set */
const sameSlip = 0.02;
/** smallest standard uncertainty a point may claim; keeps one point from owning the fit */
const floor = 1e-6;
/** of constants and scatter in turn */
const mostPasses = 30;
/** of the search: in a pass, since the weights change after it anyway, and before and after them */
const passSteps = 3;
const lastSteps = 200;

/**
 * A curve of one form over slip, for the runs of one wheel at one load.
 *
 *   y = f(s; constants) + a_bed + b_bed s        by generalised least squares
 *   V = diag(u_y² + (dy/ds)² u_s² + τ²) + σ_bed² within each bed + what grows with slip, `scatterOf`
 *
 * u: each run's own uncertainties, without what runs share. τ and σ: scatter beyond them from run to run and from bed to bed,
 * by restricted maximum likelihood; what a bed deviates by counts once a bed, however many runs it saw. Where beds are not
 * told apart from runs, runs count as if each had a bed of its own. A sweep gives several points, which share what sets its run
 * apart: each of its k points bears k τ², so that together they weigh as one run does, and one run they count in the degrees
 * of freedom. What runs share (calibration, rolling
 * radius, a sweep's zero) is added after, as a shift of its points at once. Undetermined with fewer than 4 different slips (or
 * fewer than the form has constants), without a run to spare, or when a constant that shows the form is no larger than its
 * uncertainty; "at limit" when such a constant ended on its bound.
 *
 * @param points    the runs that count; slip and value need an uncertainty
 * @param refused   points that do not count, with their reasons; carried along
 * @param shape     the form, from `slipShape`
 * @param quantity  what y is, e.g. "P/W"
 * @returns         the Fit, its constants in the form's order, and the scatter
 * @source          effective variance: J. Orear, Am. J. Phys. 50 (1982) 912, from memory; scatter: `scatterOf`, `covarianceParts`
 * @checked         tests/fitting/slipCurveFit.test.ts
 */
export function slipCurveFit(points: readonly SlipPoint[], refused: readonly FitPoint[], shape: SlipShape, quantity: string): SlipFit {
  const slips = points.map((point) => point.slip.value);
  const values = points.map((point) => point.value.value);
  const own = points.map((point) => Math.max(floor, unsharedUncertainty(point.value)));
  const kept = points.map((point, i): FitPoint => ({ run: point.run, x: slips[i] as number, y: values[i] as number, yUncertainty: own[i] as number, kept: true, reason: "" }));
  const described = { model: shape.model, formula: `${quantity} = ${shape.formula}`, points: [...kept, ...refused] };
  const runs = [...new Set(points.map((point) => point.run))];
  const degreesOfFreedom = runs.length - shape.constants.length;
  const none = (sentence: string, verdict: Verdict = "undetermined"): SlipFit => ({ ...described, scatter: null, parameters: [], covariance: [], residuals: [], degreesOfFreedom: Math.max(0, degreesOfFreedom), verdict, sentence, findings: [] });
  const different = slipGroups(points).length;
  const fewest = Math.max(fewestSlips, shape.constants.length);
  if (different < fewest) return none(`${different} different ${different === 1 ? "slip" : "slips"}; the curve needs at least ${fewest}.`);
  if (degreesOfFreedom < 1) return none(`${runs.length} runs for ${shape.constants.length} constants leave none over to tell their scatter by.`);

  const { result, scatter, doubts } = settle(points, own, shape);
  if (!result.converged) return none(`The fit did not settle: ${result.reason}.`);
  const bound = shape.constants.filter((_, i) => result.atLimit[i] && shape.needed.includes(i));
  if (bound.length > 0) return none(`${bound.map((name) => name.symbol).join(" and ")} ended on the limit of what is allowed; these slips do not show the shape of the curve.`, "atLimit");

  const p = result.parameters;
  const slopes = slips.map((slip) => shape.slopes(slip, p));
  const named = scatterParts(points, doubts, scatter, `${runs.join(", ")}, ${quantity}`);
  const unshared = covarianceParts(slopes.map((slope) => slope.byConstants), named);
  if (unshared === null) return none("These slips cannot tell the constants apart.");
  const causes = { causes: named.map(({ cause }) => cause), sizes: named.map(({ size }) => size), units: unshared.units, doubt: perRun(unshared.doubt, points.length - runs.length), lost: unshared.lost };
  const estimates = parameterEstimatesByCause(p, shape.constants, causes, sharedShifts(points, slopes, unshared.gain), `weighted least squares over ${runs.length} runs at ${different} slips`);
  const residuals = slips.map((slip, i) => (values[i] as number) - shape.value(slip, p));
  const fit: SlipFit = { ...described, ...estimates, scatter, residuals, degreesOfFreedom, verdict: "determined", sentence: "", findings: scatterFindings(points, scatter, quantity) };
  const loose = shape.needed.map((i) => estimates.parameters[i] as Fit["parameters"][number]).filter(({ estimate }) => !((estimate.standardUncertainty ?? Infinity) < Math.abs(estimate.value)));
  if (loose.length > 0) return { ...fit, verdict: "undetermined", sentence: `${loose.map((one) => one.symbol).join(" and ")} is no larger than its own uncertainty; the slips do not reach far enough to show where the curve levels off.` };
  return { ...fit, sentence: `${runs.length} runs at ${different} slips from ${Math.min(...slips).toFixed(3)} to ${Math.max(...slips).toFixed(3)} determine all ${shape.constants.length} constants.` };
}

/** Further points of a run are no further evidence of how runs scatter. */
function perRun(doubt: readonly (readonly number[])[], further: number): number[][] {
  const freedom = 2 / (doubt[0]?.[0] as number);
  const factor = Math.sqrt(freedom / Math.max(1, freedom - further));
  return doubt.map((row, a) => row.map((value, b) => value * (a === 0 ? factor : 1) * (b === 0 ? factor : 1)));
}

function scatterFindings(points: readonly SlipPoint[], scatter: CurveScatter, quantity: string): Finding[] {
  const size = Math.sqrt(mean(scatterSizes(points, scatter).map((sd) => sd ** 2)));
  const { beds, runsOnBeds, apart, few } = bedPlan(points);
  const grows = scatter.tilt > 0 && !few ? ", which grows with slip," : "";
  return [
    ...(size > 0 ? [finding("scatter-between-runs", "note", `The runs scatter more than their own uncertainties explain; a scatter between ${scatter.bed > 0 ? "runs and beds" : "runs"} of ${size.toPrecision(2)} in ${quantity}${grows} is added to every point.`, { measured: size })] : []),
    ...(!apart && beds < runsOnBeds ? [finding("beds-not-apart", "note", `What beds deviate by is not told apart from what runs deviate by: ${runsOnBeds} runs stand on ${beds} ${beds === 1 ? "bed" : "beds"}. Runs count as if each had a bed of its own; what runs of one bed share is not in the interval.`, { measured: beds })] : []),
  ];
}

/** Constants and scatter that agree with each other, and each point's own doubt at them. */
function settle(points: readonly SlipPoint[], own: readonly number[], shape: SlipShape) {
  const slips = points.map((point) => point.slip.value);
  const values = points.map((point) => point.value.value);
  const ownAt = (p: readonly number[]): number[] => points.map((point, i) => Math.hypot(own[i] as number, shape.slopes(slips[i] as number, p).bySlip * unsharedUncertainty(point.slip)));
  const fitWith = (start: readonly number[], covariance: readonly (readonly number[])[], maximumSteps: number): VectorFit => {
    const { whiten, colour } = whitening([{ indices: points.map((_, i) => i), covariance }]);
    const columns = (rows: readonly (readonly number[])[], change: (column: number[]) => number[]): number[][] => shape.constants.map((_, j) => change(rows.map((row) => row[j] as number)));
    const fit = vectorFit({
      predict: (p) => whiten(slips.map((slip) => shape.value(slip, p))),
      slopes: (p) => columns(slips.map((slip) => shape.slopes(slip, p).byConstants), whiten),
      y: whiten(values), standardUncertainties: points.map(() => 1), start, lower: shape.lower, upper: shape.upper, priors: [], maximumSteps,
    });
    const coloured = columns(fit.jacobian, colour);
    return { ...fit, residuals: colour(fit.residuals), jacobian: points.map((_, i) => coloured.map((column) => column[i] as number)) };
  };
  const alone = scatterParts(points, own, { run: 0, bed: 0, tilt: 0 }, "");
  let fit = fitWith(shape.start(slips, values), wholeCovariance(alone), lastSteps);
  let doubts = ownAt(fit.parameters);
  let scatter = firstScatter(points, fit.residuals, shape.constants.length);
  const settleScatter = (): void => {
    for (let pass = 0, isSettled = false; pass < mostPasses && !isSettled; pass++) {
      fit = fitWith(fit.parameters, wholeCovariance(scatterParts(points, doubts, scatter, "")), passSteps);
      doubts = ownAt(fit.parameters);
      ({ scatter, isSettled } = scatterOf(points, doubts, fit, scatter));
    }
  };
  settleScatter();
  if (scatter.run > 0 && !runsShow(points, doubts, fit, scatter)) {
    scatter = { ...scatter, run: 0 };
    settleScatter();
  }
  return { result: fitWith(fit.parameters, wholeCovariance(scatterParts(points, doubts, scatter, "")), lastSteps), scatter, doubts };
}

/** What each shared cause does to the constants: it moves every point at once, upwards and along the curve. */
function sharedShifts(points: readonly SlipPoint[], slopes: readonly { readonly bySlip: number }[], gain: readonly (readonly number[])[]) {
  const valueCauses = sharedEffects(points.map((point) => point.value));
  const slipCauses = sharedEffects(points.map((point) => point.slip));
  const causes = [...valueCauses, ...slipCauses.filter((cause) => !valueCauses.some((known) => known.cause === cause.cause))];
  return causes.map((cause) => {
    const onValue = valueCauses.find((known) => known.cause === cause.cause)?.effects;
    const onSlip = slipCauses.find((known) => known.cause === cause.cause)?.effects;
    const moved = slopes.map((slope, i) => (onValue?.[i] ?? 0) - slope.bySlip * (onSlip?.[i] ?? 0));
    return { ...cause, shifts: gain.map((row) => row.reduce((sum, value, i) => sum + value * (moved[i] as number), 0)) };
  });
}

/**
 * Points by slip: the set slips where every run states one, else groups of measured slips.
 *
 * @param points   the runs
 * @returns        groups of points, rising by slip
 * @source         common practice
 * @checked        tests/fitting/slipCurveFit.test.ts
 */
export function slipGroups(points: readonly SlipPoint[]): SlipPoint[][] {
  const set = points.every((point) => point.setSlip !== null);
  const place = (point: SlipPoint): number => (set ? (point.setSlip as number) : point.slip.value);
  const groups: SlipPoint[][] = [];
  for (const point of [...points].sort((a, b) => place(a) - place(b))) {
    const last = groups.at(-1)?.at(-1);
    const joins = last !== undefined && (set ? place(point) === place(last) : place(point) - place(last) <= sameSlip);
    if (joins) (groups.at(-1) as SlipPoint[]).push(point);
    else groups.push([point]);
  }
  return groups;
}
