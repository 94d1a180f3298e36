import type { Estimate } from "../core/estimate.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit, FitPoint, Verdict } from "../core/fit.ts";
import { finding } from "../core/finding.ts";
import { curveFit } from "../numerics/curveFit.ts";
import { leastSquares } from "../numerics/linearAlgebra.ts";
import { parameterEstimates } from "./parameterEstimates.ts";
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
  /** how many points of one run this is one of: a sweep gives several; absent = one */
  readonly ofRun?: number;
}

/** different slips below which no curve means anything */
const fewestSlips = 4;
/** measured slips closer than this are one slip, where none was set */
const sameSlip = 0.02;
/** smallest standard uncertainty a point may claim; keeps one point from owning the fit */
const floor = 1e-6;

/**
 * A curve of one form over slip, for the runs of one wheel at one load.
 *
 *   y = f(s; constants)        weights 1/(u_y² + (dy/ds)² u_s² + τ²)
 *
 * u: each run's own uncertainties, without what runs share. τ: scatter between runs, zero unless the points scatter
 * more than u explains, then as large as makes χ² what it should be. A sweep gives several points, which share what sets its run
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
 * @returns         the Fit, its constants in the form's order
 * @source          effective variance: J. Orear, Am. J. Phys. 50 (1982) 912; τ: R. C. Paule and J. Mandel, J. Res. NBS 87 (1982) 377; both from memory
 * @checked         tests/fitting/slipCurveFit.test.ts
 */
export function slipCurveFit(points: readonly SlipPoint[], refused: readonly FitPoint[], shape: SlipShape, quantity: string): Fit {
  const slips = points.map((point) => point.slip.value);
  const values = points.map((point) => point.value.value);
  const own = points.map((point) => Math.max(floor, unsharedUncertainty(point.value)));
  const kept = points.map((point, i): FitPoint => ({ run: point.run, x: slips[i] as number, y: values[i] as number, yUncertainty: own[i] as number, kept: true, reason: "" }));
  const described = { model: shape.model, formula: `${quantity} = ${shape.formula}`, points: [...kept, ...refused] };
  const runs = [...new Set(points.map((point) => point.run))];
  const degreesOfFreedom = runs.length - shape.constants.length;
  const none = (sentence: string, verdict: Verdict = "undetermined"): Fit => ({ ...described, parameters: [], covariance: [], residuals: [], degreesOfFreedom: Math.max(0, degreesOfFreedom), verdict, sentence, findings: [] });
  const different = slipGroups(points).length;
  const fewest = Math.max(fewestSlips, shape.constants.length);
  if (different < fewest) return none(`${different} different ${different === 1 ? "slip" : "slips"}; the curve needs at least ${fewest}.`);
  if (degreesOfFreedom < 1) return none(`${runs.length} runs for ${shape.constants.length} constants leave none over to tell their scatter by.`);

  const { result, between, doubts } = settle(points, own, shape);
  if (!result.converged) return none(`The fit did not settle: ${result.reason}.`);
  const bound = shape.constants.filter((_, i) => result.atLimit[i] && shape.needed.includes(i));
  if (bound.length > 0) return none(`${bound.map((name) => name.symbol).join(" and ")} ended on the limit of what is allowed; these slips do not show the shape of the curve.`, "atLimit");

  const p = result.parameters;
  const slopes = slips.map((slip) => shape.slopes(slip, p));
  const rows = slopes.map((slope) => slope.byConstants);
  const weights = doubts.map((doubt) => 1 / doubt ** 2);
  const unshared = leastSquares(rows, values, weights).covarianceFactor;
  if (unshared.flat().some(Number.isNaN)) return none("These slips cannot tell the constants apart.");
  // named after the runs: rows of equal cause cancel in a difference, and the scatter of two curves must not
  const ownCause = `own uncertainty and scatter of ${runs.join(", ")}, ${quantity}`;
  const estimates = parameterEstimates(p, shape.constants, unshared, degreesOfFreedom, ownCause, sharedShifts(points, slopes, weights), `weighted least squares over ${runs.length} runs at ${different} slips`);
  const findings: Finding[] = between > 0 ? [finding("scatter-between-runs", "note", `The runs scatter more than their own uncertainties explain; a scatter between runs of ${between.toPrecision(2)} in ${quantity} is added to every point.`, { measured: between })] : [];
  const residuals = slips.map((slip, i) => (values[i] as number) - shape.value(slip, p));
  const fit: Fit = { ...described, ...estimates, residuals, degreesOfFreedom, verdict: "determined", sentence: "", findings };
  const loose = shape.needed.map((i) => estimates.parameters[i] as Fit["parameters"][number]).filter(({ estimate }) => !((estimate.standardUncertainty ?? Infinity) < Math.abs(estimate.value)));
  if (loose.length > 0) return { ...fit, verdict: "undetermined", sentence: `${loose.map((one) => one.symbol).join(" and ")} is no larger than its own uncertainty; the slips do not reach far enough to show where the curve levels off.` };
  return { ...fit, sentence: `${runs.length} runs at ${different} slips from ${Math.min(...slips).toFixed(3)} to ${Math.max(...slips).toFixed(3)} determine all ${shape.constants.length} constants.` };
}

/** The constants with the scatter between runs that they leave, and each point's whole doubt at them. */
function settle(points: readonly SlipPoint[], own: readonly number[], shape: SlipShape) {
  const slips = points.map((point) => point.slip.value);
  const values = points.map((point) => point.value.value);
  const fitWith = (start: readonly number[], doubts: readonly number[]) =>
    curveFit({ model: shape.value, jacobian: (x, p) => shape.slopes(x, p).byConstants, x: slips, y: values, start, standardUncertainties: doubts, lower: shape.lower, upper: shape.upper });
  const ownAt = (p: readonly number[]): number[] => points.map((point, i) => Math.hypot(own[i] as number, shape.slopes(slips[i] as number, p).bySlip * unsharedUncertainty(point.slip)));
  const doubtsAt = (p: readonly number[], between: number): number[] => ownAt(p).map((u, i) => Math.hypot(u, betweenOf(points[i] as SlipPoint, between)));
  // χ² to be expected: a point of a sweep scatters by τ², though it bears k τ²
  const expected = (p: readonly number[], between: number): number =>
    ownAt(p).reduce((sum, u, i) => sum + (u ** 2 + between ** 2) / (u ** 2 + betweenOf(points[i] as SlipPoint, between) ** 2), 0) - shape.constants.length;
  const first = fitWith(shape.start(slips, values), own).parameters;
  const solve = (start: readonly number[], between: number) => {
    let result = fitWith(start, doubtsAt(start, between));
    for (let pass = 0; pass < 2; pass++) result = fitWith(result.parameters, doubtsAt(result.parameters, between));
    return result;
  };
  let result = solve(first, 0);
  let between = 0;
  if (result.sumOfSquares > expected(result.parameters, 0)) {
    let low = 0;
    let high = Math.max(...values) - Math.min(...values) + Math.max(...own);
    for (let pass = 0; pass < 18; pass++) {
      between = (low + high) / 2;
      result = solve(result.parameters, between);
      if (result.sumOfSquares > expected(result.parameters, between)) low = between;
      else high = between;
    }
  }
  return { result, between, doubts: doubtsAt(result.parameters, between) };
}

/**
 * The scatter between runs that one point bears: a run's own, and more where several points are of one run.
 *
 *   τ √k     k points of the run
 *
 * @param point    one point of the curve
 * @param between  τ, scatter between runs [unit of the value]
 * @returns        [unit of the value]
 * @source         the mean of k values of equal, independent errors τ√k has the error τ of one run
 * @checked        tests/fitting/sweepPoints.test.ts
 */
export function betweenOf({ ofRun = 1 }: SlipPoint, between: number): number {
  return between * Math.sqrt(ofRun);
}

/** What each shared cause does to the constants: it moves every point at once, upwards and along the curve. */
function sharedShifts(points: readonly SlipPoint[], slopes: readonly { readonly byConstants: readonly number[]; readonly bySlip: number }[], weights: readonly number[]) {
  const rows = slopes.map((slope) => slope.byConstants);
  const valueCauses = sharedEffects(points.map((point) => point.value));
  const slipCauses = sharedEffects(points.map((point) => point.slip));
  const causes = [...valueCauses, ...slipCauses.filter((cause) => !valueCauses.some((known) => known.cause === cause.cause))];
  return causes.map((cause) => {
    const onValue = valueCauses.find((known) => known.cause === cause.cause)?.effects;
    const onSlip = slipCauses.find((known) => known.cause === cause.cause)?.effects;
    const moved = slopes.map((slope, i) => (onValue?.[i] ?? 0) - slope.bySlip * (onSlip?.[i] ?? 0));
    return { ...cause, shifts: leastSquares(rows, moved, weights).solution };
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
