import { estimateFrom, undetermined } from "../core/estimate.ts";
import type { BudgetRow, Estimate } from "../core/estimate.ts";
import type { SlipCurve } from "../processing/dayResult.ts";
import { functionOfFit } from "./parameterEstimates.ts";
import { constantsOf, slipRange } from "./readSlipCurve.ts";
import { slipShape } from "./slipShapes.ts";

const steps = 400;
/** Share of its standard uncertainty by which a constant is moved to find a slope. */
const nudge = 0.05;

/**
 * Greatest tractive efficiency over slip, and the slip where it stands.
 *
 *   η(s) = (P/W)(1 − s) / (T/(rW)),   both from their fitted curves
 *   ∂η_max/∂constant by moving the constant and seeking the maximum again; likewise the slip
 *
 * Needs no radius beyond what both curves share, which keeps its signs. Scatter of the two curves counts as independent.
 *
 * @param pull    pull coefficient over driven slip
 * @param gross   gross traction ratio over driven slip, of the same runs
 * @returns       efficiency and slip [1]; both undetermined when a curve is, or when the maximum stands at the edge of the slips measured
 * @source        TE = (NT/GT)(1 − s): ASABE S296, from memory; JCGM 100:2008, 5.2.2
 * @checked       tests/fitting/bestEfficiency.test.ts
 */
export function bestEfficiency(pull: SlipCurve, gross: SlipCurve): { readonly efficiency: Estimate<"1">; readonly slip: Estimate<"1"> } {
  const both = (reason: string) => ({ efficiency: undetermined("1", reason), slip: undetermined("1", reason) });
  const open = [pull, gross].find((curve) => curve.fit.verdict !== "determined");
  if (open !== undefined) return both(`no curve of ${open === pull ? "the pull" : "the torque"}: ${open.fit.sentence}`);
  const range = slipRange(pull);
  const [p, g] = [constantsOf(pull), constantsOf(gross)];
  const best = maximum(pull, gross, p, g, range);
  if (best === null) return both(`the efficiency is greatest at the edge of the slips measured, ${range[0].toFixed(3)} to ${range[1].toFixed(3)}: its maximum lies beyond them`);
  const moved = (curve: SlipCurve, seek: (constants: readonly number[]) => Best | null, constants: readonly number[]): { efficiency: number[]; slip: number[] } => {
    const slopes = constants.map((value, j) => {
      const shift = nudge * (curve.fit.parameters[j]?.estimate.standardUncertainty ?? 0);
      const there = seek(constants.map((other, k) => (k === j ? value + shift : other)));
      const back = seek(constants.map((other, k) => (k === j ? value - shift : other)));
      return there === null || back === null || shift === 0 ? [0, 0] : [(there.efficiency - back.efficiency) / (2 * shift), (there.slip - back.slip) / (2 * shift)];
    });
    return { efficiency: slopes.map((slope) => slope[0] as number), slip: slopes.map((slope) => slope[1] as number) };
  };
  const byPull = moved(pull, (constants) => maximum(pull, gross, constants, g, range), p);
  const byGross = moved(gross, (constants) => maximum(pull, gross, p, constants, range), g);
  const rows = (of: "efficiency" | "slip"): BudgetRow[] => [...signed(pull, byPull[of]), ...signed(gross, byGross[of])];
  return {
    efficiency: estimateFrom(best.efficiency, "1", "greatest of (P/W)(1 − s)/(T/(rW)) over the fitted curves", rows("efficiency")),
    slip: estimateFrom(best.slip, "1", "slip at which (P/W)(1 − s)/(T/(rW)) of the fitted curves is greatest", rows("slip")),
  };
}

interface Best {
  readonly slip: number;
  readonly efficiency: number;
}

/** Budget of a function of a curve's constants; its own value does not matter. */
function signed(curve: SlipCurve, slopes: readonly number[]): readonly BudgetRow[] {
  return functionOfFit(curve.fit, 0, slopes, "1", "").budget;
}

/** The greatest efficiency between the slips; null at their edge. A parabola through three steps places it. */
function maximum(pull: SlipCurve, gross: SlipCurve, p: readonly number[], g: readonly number[], [from, to]: readonly [number, number]): Best | null {
  const [pullShape, grossShape] = [slipShape(pull.shape, pull.knots), slipShape(gross.shape, gross.knots)];
  const efficiency = (slip: number): number => {
    const torque = grossShape.value(slip, g);
    return torque > 0 ? (pullShape.value(slip, p) * (1 - slip)) / torque : -Infinity;
  };
  const step = (to - from) / steps;
  let place = 0;
  for (let i = 1; i <= steps; i++) if (efficiency(from + i * step) > efficiency(from + place * step)) place = i;
  if (place === 0 || place === steps) return null;
  const [a, b, c] = [-1, 0, 1].map((i) => efficiency(from + (place + i) * step)) as [number, number, number];
  const bend = a - 2 * b + c;
  const shift = bend < 0 && Number.isFinite(bend) ? (a - c) / (2 * bend) : 0;
  const slip = from + (place + shift) * step;
  return { slip, efficiency: efficiency(slip) };
}
