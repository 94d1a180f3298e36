import { pullSlip, pullSlipSlopes } from "../models/pullSlip.ts";
import type { PullSlip } from "../models/pullSlip.ts";
import { monotoneCurve } from "../numerics/monotoneCurve.ts";
import type { MonotoneCurve } from "../numerics/monotoneCurve.ts";
import { quantile } from "../numerics/statistics.ts";
import type { SlipShapeName } from "../processing/dayResult.ts";
import type { ParameterName } from "./parameterEstimates.ts";

/** A form of curve over slip that points can be fitted with. */
export interface SlipShape {
  readonly name: SlipShapeName;
  readonly model: string;
  readonly formula: string;
  readonly constants: readonly ParameterName[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  /** constants that must stand clear of zero and off their bounds, or the shape was not seen */
  readonly needed: readonly number[];
  /** a place to start the fit from */
  readonly start: (slips: readonly number[], values: readonly number[]) => readonly number[];
  readonly value: (slip: number, constants: readonly number[]) => number;
  readonly slopes: (slip: number, constants: readonly number[]) => { readonly byConstants: readonly number[]; readonly bySlip: number };
}

/** Knots of the monotone curve at most: more follow the scatter. */
const mostKnots = 6;
/** Share of a unit by which knot values are moved to find a slope. */
const step = 1e-6;

/**
 * The forms a curve over slip may take, by name.
 *
 *   saturating: A (1 − e^(−s/B)) − C      saturatingFall: the same − D s      monotone: smooth through knots, each no lower than the one before
 *
 * All in the unit of the ordinate; slip and skid as in `pullSlip`. The monotone one says nothing of why: it holds where a
 * pull never falls with slip.
 *
 * @param name    which form
 * @param knots   slips of the monotone form's knots, rising; the other forms have none
 * @returns       value, slopes, bounds and names of its constants
 * @source        models/pullSlip.ts; isotonic regression with smooth steps, common practice
 * @checked       tests/fitting/slipShapes.test.ts
 */
export function slipShape(name: SlipShapeName, knots: readonly number[] = []): SlipShape {
  return name === "monotone" ? monotone(knots) : saturating(name === "saturatingFall");
}

/**
 * Knots for the monotone form: every different slip, or six spread evenly over the points where there are more.
 *
 * @param slips   measured slips, any order
 * @param groups  how many different slips were set
 * @returns       rising knots from the least to the greatest slip
 * @source        knots at quantiles of the data, common practice
 * @checked       tests/fitting/slipShapes.test.ts
 */
export function slipKnots(slips: readonly number[], groups: number): number[] {
  const count = Math.min(groups, mostKnots);
  const knots = Array.from({ length: count }, (_, i) => quantile(slips, count === 1 ? 0.5 : i / (count - 1)));
  return knots.filter((knot, i) => i === 0 || knot > (knots[i - 1] as number) + 1e-6);
}

function saturating(falls: boolean): SlipShape {
  const toModel = (p: readonly number[]): PullSlip => ({ rise: p[0] as number, slipScale: p[1] as number, resistance: p[2] as number, ...(falls && { fall: p[3] as number }) });
  const names: readonly ParameterName[] = [
    { name: "rise", symbol: "A", unit: "1" },
    { name: "slipScale", symbol: "B", unit: "1" },
    { name: "resistance", symbol: "C", unit: "1" },
    { name: "fall", symbol: "D", unit: "1" },
  ];
  const count = falls ? 4 : 3;
  return {
    name: falls ? "saturatingFall" : "saturating",
    model: falls ? "saturating slip curve with a straight fall" : "saturating slip curve",
    formula: `A (1 − e^(−s/B)) − C${falls ? " − D s; A, B, C, D" : "; A, B, C"} without unit`,
    constants: names.slice(0, count),
    lower: [0, 0.005, -2, -2].slice(0, count),
    upper: [5, 2, 5, 5].slice(0, count),
    needed: [0, 1],
    start: (slips, values) => {
      const least = Math.min(...values);
      // the lowest point stands for zero slip where the wheel was only driven
      const level = Math.min(...slips) < -0.02 ? (least + Math.max(...values)) / 2 : least;
      return [Math.max(0.05, Math.max(...values) - level), 0.15, -level, 0].slice(0, count);
    },
    value: (slip, p) => pullSlip(slip, toModel(p)),
    slopes: (slip, p) => {
      const { byConstants, bySlip } = pullSlipSlopes(slip, toModel(p));
      return { byConstants: byConstants.slice(0, count), bySlip };
    },
  };
}

/** First value and rises from knot to knot: rises are not below zero. */
function monotone(knots: readonly number[]): SlipShape {
  const through = (p: readonly number[]): MonotoneCurve => {
    let level = 0;
    return monotoneCurve(knots, p.map((part) => (level += part)));
  };
  // A fit asks for many slips at the same constants: the curve, and those with one constant moved, are built once for all of them.
  const build = (p: readonly number[]) => {
    const nudged = (j: number, by: number): MonotoneCurve => through(p.map((value, k) => (k === j ? value + by : value)));
    // a rise that rests at zero is moved upwards only: the form ends there
    return { p: [...p], curve: through(p), moved: p.map((part, j) => ({ up: nudged(j, step), down: j > 0 && part < step ? null : nudged(j, -step) })) };
  };
  let last: ReturnType<typeof build> | null = null;
  const at = (p: readonly number[]): ReturnType<typeof build> => {
    if (last === null || !last.p.every((value, i) => value === p[i])) last = build(p);
    return last;
  };
  return {
    name: "monotone",
    model: "monotone curve through knots",
    formula: `smooth and never falling through knots at slips of ${knots.map((knot) => knot.toFixed(3)).join(", ")}; constants: value at the first knot, then the rise to each next, without unit`,
    constants: knots.map((_, i) => (i === 0 ? { name: "firstKnot", symbol: "y1", unit: "1" as const } : { name: `rise${i + 1}`, symbol: `Δ${i + 1}`, unit: "1" as const })),
    lower: knots.map((_, i) => (i === 0 ? -5 : 0)),
    upper: knots.map(() => 5),
    needed: [],
    start: (slips, ordinates) => {
      const nearest = knots.map((knot) => ordinates[slips.map((slip) => Math.abs(slip - knot)).reduce((best, gap, i, gaps) => (gap < (gaps[best] as number) ? i : best), 0)] as number);
      const raised = nearest.map((_, i) => Math.max(...nearest.slice(0, i + 1)));
      return raised.map((value, i) => (i === 0 ? value : Math.max(0.01, value - (raised[i - 1] as number))));
    },
    value: (slip, p) => at(p).curve.value(slip),
    slopes: (slip, p) => {
      const { curve, moved } = at(p);
      const byConstants = moved.map(({ up, down }) => (down === null ? (up.value(slip) - curve.value(slip)) / step : (up.value(slip) - down.value(slip)) / (2 * step)));
      return { byConstants, bySlip: curve.slope(slip) };
    },
  };
}
