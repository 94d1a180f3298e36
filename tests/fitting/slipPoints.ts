import { estimateFrom } from "../../src/core/estimate.ts";
import type { BudgetRow } from "../../src/core/estimate.ts";
import { slipCurveFit } from "../../src/fitting/slipCurveFit.ts";
import type { SlipPoint } from "../../src/fitting/slipCurveFit.ts";
import { slipKnots, slipShape } from "../../src/fitting/slipShapes.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import type { SlipCurve, SlipShapeName } from "../../src/processing/dayResult.ts";
import { ownRow } from "../helpers/runResult.ts";

// the truth is written out here: the test may not lean on the model it checks
export const truth = (slip: number): number => 0.45 * (1 - Math.exp(-slip / 0.18)) - 0.12;
export const grossTruth = (slip: number): number => 0.5 * (1 - Math.exp(-slip / 0.15)) + 0.03;
export const setSlips = [0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.6];

export function point(run: string, slip: number, value: number, own = 0.005, rows: readonly BudgetRow[] = [], setSlip: number | null = null, bed: string | null = null): SlipPoint {
  return { run, slip: estimateFrom(slip, "1", "", [ownRow(1e-4)]), value: estimateFrom(value, "1", "", [ownRow(own), ...rows]), setSlip, bed };
}

/** Runs at the set slips, `repeats` of each, with scatter of each run's own uncertainty and between runs. */
export function made(seed: number, repeats: number, own: number, between: number, of: (slip: number) => number = truth, slips: readonly number[] = setSlips): SlipPoint[] {
  const random = seededRandom(seed);
  return slips.flatMap((set) =>
    Array.from({ length: repeats }, (_, repeat) => {
      const slip = set + 0.005 * random.normal();
      return point(`s${set}r${repeat}`, slip, of(slip) + own * random.normal() + between * random.normal(), own, [], set);
    }),
  );
}

/** A curve of one form through points. */
export function curveOf(points: readonly SlipPoint[], shape: SlipShapeName = "saturating", quantity = "P/W"): SlipCurve {
  const knots = shape === "monotone" ? slipKnots(points.map(({ slip }) => slip.value), new Set(points.map(({ setSlip }) => setSlip)).size) : [];
  return { shape, knots, fit: slipCurveFit(points, [], slipShape(shape, knots), quantity) };
}

/** Points without noise on a line of the given truth. */
export function exact(of: (slip: number) => number, slips: readonly number[] = setSlips): SlipPoint[] {
  return slips.map((slip) => point(`s${slip}`, slip, of(slip), 0.005, [], slip));
}
