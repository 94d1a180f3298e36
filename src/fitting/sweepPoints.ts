import { estimateFrom } from "../core/estimate.ts";
import type { BudgetRow, Estimate } from "../core/estimate.ts";
import type { Fit, FitPoint } from "../core/fit.ts";
import { mean, standardDeviation } from "../numerics/statistics.ts";
import type { RunResult } from "../processing/dayResult.ts";
import { barred, measureOf, refusedPoint } from "./refusedPoint.ts";
import type { SlipPoint } from "./slipCurveFit.ts";

/** Stretches of slip that each way is gathered in; fewest revolutions in one. */
const stretches = 4;
const fewest = 2;

/**
 * A slip sweep as points of a curve over runs: each way gathered in four stretches of slip, the lag taken off.
 *
 *   s̄ = mean(s(t − τ))        y = f(s̄) + mean(yᵢ − f(sᵢ))        f: the sweep's own curve, so that its bend within a stretch does not count
 *   u(y) = d/√n               d: scatter of the revolutions about f within their stretches, over all of them
 *
 * Way up and way down stay apart, so the hysteresis stands in the points. What all its revolutions share is named after the run,
 * or after the calibration it comes from; how many points the run gives is said with each, for together they are one run.
 *
 * @param run  a reduced sweep
 * @returns    points [1], or one refused point with the reason
 * @source     common practice
 * @checked    tests/fitting/sweepPoints.test.ts
 */
export function sweepPoints(run: RunResult): { readonly points: readonly SlipPoint[]; readonly refused: readonly FitPoint[] } {
  const refuse = (reason: string): ReturnType<typeof sweepPoints> => ({ points: [], refused: [refusedPoint(run, run.plan.setSlip, undefined, reason)] });
  const reason = barred(run);
  if (reason !== null) return refuse(reason);
  const radius = measureOf(run, "slipRadius")?.estimate;
  const fit = run.fits.find((candidate) => candidate.parameters.some((parameter) => parameter.name === "responseLag"));
  const ways = ["pullUpLagOff", "pullDownLagOff"].flatMap((name) => run.curves.filter((curve) => curve.name === name));
  const constants = fit === undefined ? [] : ["rise", "slipScale", "resistance"].map((name) => constant(fit, name));
  const [rise, scale, resistance] = constants;
  if (rise === undefined || scale === undefined || resistance === undefined || radius === undefined || ways.length < 2) return refuse("the sweep gives no curve of its own");
  const curve = (slip: number): number => rise.value * (1 - Math.exp(-slip / scale.value)) - resistance.value;
  const gathered = ways.flatMap((way) => {
    const revolutions = way.x.values.flatMap((slip, i) => (slip === null || typeof way.y.values[i] !== "number" ? [] : [{ slip, left: (way.y.values[i] as number) - curve(slip) }]));
    return stretched(revolutions).map((part) => ({ part, spread: part.map(({ left }) => left) }));
  });
  const scatter = pooled(gathered.map(({ spread }) => spread));
  const ofRun = gathered.length;
  const named = (row: BudgetRow): BudgetRow => ({ ...row, sharedBy: row.sharedBy ?? `sweep ${run.plan.id}` });
  // C takes up whatever shifts the whole pull; what the radius does to it stands in the slip
  const shifts = resistance.budget.filter((row) => !row.cause.startsWith("scatter of the revolutions") && !radius.budget.some((own) => own.cause === row.cause)).map((row) => named({ ...row, effect: -row.effect }));
  return {
    refused: [],
    points: gathered.map(({ part, spread }): SlipPoint => {
      const slip = mean(part.map((revolution) => revolution.slip));
      const own: BudgetRow = { cause: `scatter of the revolutions at ${slip.toFixed(3)}, ${run.plan.id}`, effect: scatter.sd / Math.sqrt(part.length), sharedBy: null, degreesOfFreedom: scatter.degreesOfFreedom };
      return {
        run: run.plan.id,
        slip: estimateFrom(slip, "1", `mean of ${part.length} revolutions of a sweep, lag taken off`, radius.budget.map((row) => named({ ...row, effect: ((1 - slip) * row.effect) / radius.value }))),
        value: estimateFrom(curve(slip) + mean(spread), "1", `mean of ${part.length} revolutions of a sweep`, [own, ...shifts]),
        setSlip: null,
        bed: run.plan.bed,
        ofRun,
      };
    }),
  };
}

function constant(fit: Fit, name: string): Estimate | undefined {
  return fit.parameters.find((parameter) => parameter.name === name)?.estimate;
}

/** Equal stretches of slip from the least to the greatest; those with too few revolutions are left out. */
function stretched<T extends { readonly slip: number }>(revolutions: readonly T[]): T[][] {
  const slips = revolutions.map(({ slip }) => slip);
  const [low, high] = [Math.min(...slips), Math.max(...slips)];
  const place = (slip: number): number => Math.min(stretches - 1, Math.floor(((slip - low) / (high - low)) * stretches));
  return Array.from({ length: stretches }, (_, i) => revolutions.filter(({ slip }) => place(slip) === i)).filter((part) => part.length >= fewest);
}

/** Scatter within the stretches, over all of them. */
function pooled(parts: readonly (readonly number[])[]): { readonly sd: number; readonly degreesOfFreedom: number } {
  const degreesOfFreedom = parts.reduce((sum, part) => sum + part.length - 1, 0);
  const squares = parts.reduce((sum, part) => sum + (part.length - 1) * standardDeviation(part) ** 2, 0);
  return { sd: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom };
}
