import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { BudgetRow, Estimate } from "../../core/estimate.ts";
import type { Fit, FitPoint } from "../../core/fit.ts";
import { curveFit } from "../../numerics/curveFit.ts";
import { leastSquares } from "../../numerics/linearAlgebra.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import type { Curve } from "../dayResult.ts";

/** One whole revolution of a sweep. */
export interface SweptPoint {
  readonly timeS: number;
  readonly slip: number;
  /** pull coefficient */
  readonly pull: number;
}

/** What a slip sweep gives. */
export interface SweptCurve {
  /** size of the slip's change with time, mean of both ways [1/s] */
  readonly slipRate: Estimate<"1/s">;
  /** how far the pull comes behind the slip */
  readonly lag: Estimate<"s">;
  /** pull coefficient on the way up less that on the way down, the lag taken off */
  readonly hysteresis: Estimate<"1">;
  readonly atSlip: readonly { readonly slip: number; readonly estimate: Estimate<"1"> }[];
  readonly fit: Fit;
  readonly curves: readonly Curve[];
}

/** Revolutions that each way must have, or the two cannot be told apart. */
const fewestEachWay = 4;
const names = [["rise", "A", "1"], ["slipScale", "B", "1"], ["resistance", "C", "1"], ["responseLag", "τ", "s"], ["hysteresis", "h", "1"]] as const;

/**
 * The curve of a slip sweep with the lag between slip and pull, and the hysteresis between its two ways.
 *
 *   P/W(t) = A (1 − e^(−s(t−τ)/B)) − C ± h/2        + on the way up, − on the way down; s(t) straight between revolutions
 *
 * A lag moves the ways apart along the slip, most where the curve is steep; hysteresis moves them apart in the pull, everywhere
 * alike. That is what tells them from each other, so the sweep must reach from the steep part to the level one. One point a
 * revolution, unweighted; their scatter about the curve is the uncertainty. Causes all points share (load, pull, zero, radius)
 * are added as a shift of the whole curve.
 *
 * @param points   whole revolutions in order of time
 * @param run      the run's id
 * @param shared   what the pull coefficients share, as effects on their mean [1]
 * @param radius   the radius slip is counted from; its doubt moves every slip by (1 − s) δr/r, and the slip rate by its −δr/r
 * @param slips    slips at which the pull is read [1]
 * @returns        slip rate, lag, hysteresis, pull at slips, the Fit and both ways as curves; not determined with fewer than 4 revolutions either way
 * @source         common practice; swept-slip tests of single wheels, from memory
 * @checked        tests/processing/measures/sweptCurve.test.ts
 */
export function sweptCurve(points: readonly SweptPoint[], run: string, shared: readonly BudgetRow[], radius: Estimate<"m">, slips: readonly number[]): SweptCurve {
  const turn = points.reduce((best, point, i) => (point.slip > (points[best]?.slip ?? -Infinity) ? i : best), 0);
  const up = points.slice(0, turn + 1);
  const down = points.slice(turn);
  const ways = points.map((_, i) => (i < turn ? 1 : i > turn ? -1 : 0));
  const fitPoints = points.map((point, i): FitPoint => ({ run: `${run} ${["down", "turn", "up"][(ways[i] as number) + 1]} ${i + 1}`, x: point.slip, y: point.pull, yUncertainty: null, kept: true, reason: "" }));
  const described = { model: "swept pull–slip curve with lag and hysteresis", formula: "P/W = A (1 − e^(−s(t−τ)/B)) − C ± h/2, + on the way up; A, B, C, h without unit, τ in seconds", points: fitPoints };
  const slipRate = rateOf(up, down, run, radius);
  const curves = [wayCurve("pullUp", "way up", up), wayCurve("pullDown", "way down", down)];
  const none = (sentence: string): SweptCurve => ({
    slipRate, curves,
    lag: undetermined("s", sentence), hysteresis: undetermined("1", sentence),
    atSlip: slips.map((slip) => ({ slip, estimate: undetermined("1", sentence) })),
    fit: { ...described, parameters: [], covariance: [], residuals: [], degreesOfFreedom: 0, verdict: "undetermined", sentence, findings: [] },
  });
  if (up.length < fewestEachWay || down.length < fewestEachWay) return none(`${up.length} whole revolutions on the way up and ${down.length} on the way down; ${fewestEachWay} are needed either way.`);
  const y = points.map((point) => point.pull);
  const value = (i: number, p: readonly number[]): number => (p[0] as number) * (1 - Math.exp(-slipAt(points, (points[i] as SweptPoint).timeS - (p[3] as number)) / (p[1] as number))) - (p[2] as number) + ((ways[i] as number) * (p[4] as number)) / 2;
  const index = points.map((_, i) => i);
  const longest = ((points.at(-1) as SweptPoint).timeS - (points[0] as SweptPoint).timeS) / 8;
  const least = Math.min(...y);
  const result = curveFit({ model: value, x: index, y, start: [Math.max(0.05, Math.max(...y) - least), 0.15, -least, 0, 0], lower: [0, 0.005, -2, -longest, -1], upper: [5, 2, 5, longest, 1] });
  if (!result.converged || result.standardErrors.some((error) => !Number.isFinite(error))) return none("The sweep does not tell curve, lag and hysteresis apart.");
  const p = result.parameters;
  const loose = [0, 1].filter((i) => !((result.standardErrors[i] as number) < Math.abs(p[i] as number)));
  if (loose.length > 0 || result.atLimit.some(Boolean)) return none(`${names.filter((_, i) => loose.includes(i) || result.atLimit[i]).map(([, symbol]) => symbol).join(" and ")} is not shown by these slips; the sweep does not reach from the steep part of the curve to the level one.`);

  const slopes = (i: number): number[] => p.map((constant, j) => {
    const step = 1e-5 * Math.max(1e-2, Math.abs(constant));
    const moved = (by: number): number => value(i, p.map((other, k) => (k === j ? other + by : other)));
    return (moved(step) - moved(-step)) / (2 * step);
  });
  const rows = index.map(slopes);
  const steepness = points.map(({ slip }) => ((p[0] as number) / (p[1] as number)) * Math.exp(-slip / (p[1] as number)));
  const shift = (moves: readonly number[]): number[] => leastSquares(rows, moves).solution;
  const shifts = [
    ...shared.map((row) => ({ row, by: shift(y.map(() => row.effect)) })),
    ...radius.budget.map((row) => ({ row, by: shift(points.map(({ slip }, i) => (-(steepness[i] as number) * (1 - slip) * row.effect) / radius.value)) })),
  ];
  const own = `scatter of the revolutions about their curve, ${run}`;
  const method = `least squares over ${points.length} revolutions, ${up.length} up and ${down.length} down`;
  const readFrom = (number: number, weights: readonly number[], unit: "1" | "s", how: string): Estimate => {
    const variance = weights.reduce((sum, a, i) => sum + weights.reduce((inner, b, j) => inner + a * b * (result.covariance[i]?.[j] as number), 0), 0);
    const dot = (by: readonly number[]): number => by.reduce((sum, part, j) => sum + part * (weights[j] as number), 0);
    return estimateFrom(number, unit, how, [{ cause: own, effect: Math.sqrt(variance), sharedBy: null, degreesOfFreedom: result.degreesOfFreedom }, ...shifts.map(({ row, by }) => ({ ...row, effect: dot(by) }))]);
  };
  const unit = (j: number): number[] => p.map((_, k) => (k === j ? 1 : 0));
  const parameters = names.map(([name, symbol, of], j) => ({ name, symbol, estimate: readFrom(p[j] as number, unit(j), of, method) }));
  const [from, to] = [Math.min(...points.map(({ slip }) => slip)), Math.max(...points.map(({ slip }) => slip))];
  const atSlip = slips.map((slip) => {
    if (slip < from || slip > to) return { slip, estimate: undetermined("1", `slip ${slip} lies outside the sweep, ${from.toFixed(3)} to ${to.toFixed(3)}`) };
    const left = Math.exp(-slip / (p[1] as number));
    const weights = [1 - left, (-(p[0] as number) * slip * left) / (p[1] as number) ** 2, -1, 0, 0];
    return { slip, estimate: readFrom((p[0] as number) * (1 - left) - (p[2] as number), weights, "1", "read from the swept curve, lag taken off, midway between the ways") as Estimate<"1"> };
  });
  const lagOff = points.map((point) => ({ ...point, slip: slipAt(points, point.timeS - (p[3] as number)) }));
  return {
    slipRate, curves: [...curves, lagOffCurve("pullUpLagOff", "way up", lagOff.slice(0, turn)), lagOffCurve("pullDownLagOff", "way down", lagOff.slice(turn + 1))], atSlip,
    lag: parameters[3]?.estimate as Estimate<"s">,
    hysteresis: parameters[4]?.estimate as Estimate<"1">,
    fit: { ...described, parameters, covariance: result.covariance, residuals: result.residuals, degreesOfFreedom: result.degreesOfFreedom, verdict: "determined", sentence: `${up.length} revolutions up and ${down.length} down, from ${from.toFixed(3)} to ${to.toFixed(3)} slip.`, findings: [] },
  };
}

/** Slip at a time, straight between revolutions and on beyond the first and the last. */
function slipAt(points: readonly SweptPoint[], timeS: number): number {
  let i = 1;
  while (i < points.length - 1 && (points[i] as SweptPoint).timeS < timeS) i++;
  const [a, b] = [points[i - 1] as SweptPoint, points[i] as SweptPoint];
  const share = (timeS - a.timeS) / (b.timeS - a.timeS);
  return a.slip * (1 - share) + b.slip * share;
}

function rateOf(up: readonly SweptPoint[], down: readonly SweptPoint[], run: string, radius: Estimate<"m">): Estimate<"1/s"> {
  const lines = [up, down].filter((way) => way.length >= 3).map((way) => lineFit(way.map((point) => point.timeS), way.map((point) => point.slip)));
  if (lines.length === 0) return undetermined("1/s", "fewer than three whole revolutions either way");
  const rate = lines.reduce((sum, line) => sum + Math.abs(line.slope), 0) / lines.length;
  const rows = lines.map((line, i): BudgetRow => ({ cause: `slip about a straight line, way ${i + 1}, ${run}`, effect: Math.sqrt(line.covariance[1]?.[1] ?? 0) / lines.length, sharedBy: null, degreesOfFreedom: line.degreesOfFreedom }));
  return estimateFrom(rate, "1/s", `slope of slip over time, ${lines.length === 2 ? "mean of both ways" : "one way"}`, [...rows, ...radius.budget.map((row) => ({ ...row, effect: (-rate * row.effect) / radius.value }))]);
}

/** The revolutions of one way, each at the slip that its pull answers to. */
function lagOffCurve(name: string, label: string, points: readonly SweptPoint[]): Curve {
  return { ...wayCurve(name, label, points), method: "one point a whole revolution, the fitted lag taken off its slip; the turning point left out" };
}

function wayCurve(name: string, label: string, points: readonly SweptPoint[]): Curve {
  return { name, x: { label: "slip", unit: "1", values: points.map(({ slip }) => slip) }, y: { label: `pull coefficient, ${label}`, unit: "1", values: points.map(({ pull }) => pull) }, yUncertainty: null, method: "one point a whole revolution, as measured, lag not taken off" };
}
