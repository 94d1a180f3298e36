import type { FitPoint } from "../core/fit.ts";
import { curveFit } from "../numerics/curveFit.ts";
import { mean, standardDeviation } from "../numerics/statistics.ts";
import type { CurveCandidate, SlipCurve, SlipShapeName } from "../processing/dayResult.ts";
import { unsharedUncertainty } from "./sharedEffects.ts";
import { scatterSizes } from "./curveScatter.ts";
import type { CurveScatter } from "./curveScatter.ts";
import { slipCurveFit, slipGroups } from "./slipCurveFit.ts";
import type { SlipPoint } from "./slipCurveFit.ts";
import { slipKnots, slipShape } from "./slipShapes.ts";

/** The forms tried, the simplest first. */
const forms: readonly SlipShapeName[] = ["saturating", "saturatingFall", "monotone"];

/** The form that runs of one wheel at one load are described by, and those that were tried beside it. */
export interface ChosenCurve {
  readonly curve: SlipCurve;
  readonly candidates: readonly CurveCandidate[];
  /** why this form */
  readonly choice: string;
  /** of the chosen form; null where it could not be fitted */
  readonly scatter: CurveScatter | null;
}

/**
 * Fits every form and chooses one by what it says of slips it has not seen.
 *
 *   e_g = ȳ_g − f₋g(s̄_g) over the inner slips g, each left out of the fit f₋g in turn;   error = √(mean e²)
 *
 * Chosen: the form of the least mean e². A simpler one whose mean e² is within one standard error of it is not chosen, for
 * where the curve bends it may be off by more than the runs' scatter; it counts as comparable, and what it reads otherwise is
 * doubt of the form. The outermost slips are never left out, because no curve is read beyond the slips measured. Where no error
 * can be worked out for a form, it is not chosen, but comparable; where for none, the simplest determined form stands.
 *
 * @param points    the runs that count
 * @param refused   points that do not count, carried along
 * @param quantity  what is fitted, e.g. "P/W"
 * @returns         the chosen curve, all candidates, and a sentence
 * @source          leave-one-out; the standard error of its mean square: L. Breiman et al., Classification and Regression Trees (1984), 3.4.3, from memory
 * @checked         tests/fitting/chooseSlipCurve.test.ts
 */
export function chooseSlipCurve(points: readonly SlipPoint[], refused: readonly FitPoint[], quantity: string): ChosenCurve {
  const groups = slipGroups(points);
  const tried = forms.map((name) => {
    const knots = name === "monotone" ? knotsOf(points) : [];
    const fit = slipCurveFit(points, refused, slipShape(name, knots), quantity);
    const curve: SlipCurve = { shape: name, knots, fit };
    return { curve, scatter: fit.scatter, squares: fit.verdict === "determined" && fit.scatter !== null ? heldOutSquares(points, groups, name, fit.scatter) : null };
  });
  const first = tried[0] as (typeof tried)[number];
  const scored = tried.flatMap(({ curve, squares }) => (squares === null ? [] : [{ curve, squares, error: mean(squares) }]));
  const least = scored.reduce<(typeof scored)[number] | null>((best, one) => (best === null || one.error < best.error ? one : best), null);
  const comparable = least === null ? Number.NaN : least.error + standardError(least.squares);
  const chosen = least?.curve ?? tried.find(({ curve }) => curve.fit.verdict === "determined")?.curve ?? first.curve;
  const candidates = tried.map(({ curve, squares }): CurveCandidate => ({ ...curve, heldOutError: squares === null ? null : Math.sqrt(mean(squares)), comparable: curve === chosen || squares === null || mean(squares) <= comparable, chosen: curve === chosen }));
  return { curve: chosen, candidates, choice: sentence(chosen, candidates, groups.length), scatter: tried.find(({ curve }) => curve === chosen)?.scatter ?? null };
}

function knotsOf(points: readonly SlipPoint[]): number[] {
  return points.length === 0 ? [] : slipKnots(points.map((point) => point.slip.value), slipGroups(points).length);
}

/** Squared errors at the inner slips, each read from a fit to the others; null where one of those fits is not possible. */
function heldOutSquares(points: readonly SlipPoint[], groups: readonly (readonly SlipPoint[])[], name: SlipShapeName, scatter: CurveScatter): number[] | null {
  if (groups.length < 4) return null;
  const sizes = scatterSizes(points, scatter);
  const doubtOf = new Map(points.map((point, i) => [point, Math.hypot(1e-6, unsharedUncertainty(point.value), sizes[i] as number)]));
  const squares = groups.slice(1, -1).map((out) => {
    const rest = groups.filter((group) => group !== out).flat();
    const knots = name === "monotone" ? slipKnots(rest.map((point) => point.slip.value), groups.length - 1) : [];
    const shape = slipShape(name, knots);
    if (groups.length - 1 < shape.constants.length) return Number.NaN;
    const slips = rest.map((point) => point.slip.value);
    const values = rest.map((point) => point.value.value);
    const doubts = rest.map((point) => doubtOf.get(point) as number);
    const fit = curveFit({ model: shape.value, jacobian: (x, p) => shape.slopes(x, p).byConstants, x: slips, y: values, start: shape.start(slips, values), standardUncertainties: doubts, lower: shape.lower, upper: shape.upper });
    const at = mean(out.map((point) => point.slip.value));
    return (mean(out.map((point) => point.value.value)) - shape.value(at, fit.parameters)) ** 2;
  });
  return squares.some((square) => !Number.isFinite(square)) ? null : squares;
}

function standardError(squares: readonly number[]): number {
  return squares.length < 2 ? 0 : standardDeviation(squares) / Math.sqrt(squares.length);
}

function sentence(chosen: SlipCurve, candidates: readonly CurveCandidate[], slips: number): string {
  const shown = candidates.map((one) => `${one.fit.model} ${one.heldOutError === null ? "not scored" : one.heldOutError.toFixed(4)}`).join(", ");
  if (candidates.every((one) => one.heldOutError === null)) return `No form could be scored at slips left out (${slips} different slips); the simplest stands.`;
  return `Error at inner slips left out in turn: ${shown}. Chosen: ${chosen.fit.model}, whose error is least.`;
}
