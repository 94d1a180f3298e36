import type { RunPlan } from "../campaign/campaign.ts";
import type { Estimate } from "../core/estimate.ts";
import type { Fit } from "../core/fit.ts";
import { estimateFrom, undetermined } from "../core/estimate.ts";
import { mean, standardDeviation } from "../numerics/statistics.ts";
import type { DeflectionCurve } from "./dayResult.ts";

/** loads of the curve besides zero */
const steps = 20;

/** A reduced load–deflection run: its plan and the fit that holds its points. A RunResult is one. */
export interface DeflectionRun {
  readonly plan: RunPlan;
  readonly fits: readonly Fit[];
}

/**
 * Load against deflection of one wheel from its load–deflection runs: the mean of the runs at equal loads, up to the
 * greatest load that every run reached. Uncertainty: the mean of the runs' own (contact, calibration: not averaged
 * away, for runs on one press share them) and, from two runs on, their scatter.
 *
 * @returns null when no run of that wheel has points with a known uncertainty
 */
export function deflectionCurveFrom(wheel: string, runs: readonly DeflectionRun[]): DeflectionCurve | null {
  const used = runs
    .filter((run) => run.plan.wheel === wheel && run.plan.kind === "loadDeflection")
    .map((run) => ({ id: run.plan.id, points: (run.fits[0]?.points ?? []).filter((point) => point.kept && point.yUncertainty !== null) }))
    .filter((run) => run.points.length >= 3);
  if (used.length === 0) return null;
  const greatestN = Math.min(...used.map((run) => Math.max(...run.points.map((point) => point.x))));
  const loadN = Array.from({ length: steps + 1 }, (_, index) => (greatestN * index) / steps);
  const deflectionM: number[] = [];
  const uncertaintyM: number[] = [];
  for (const load of loadN) {
    const values = used.map((run) => between([0, ...run.points.map((point) => point.x)], [0, ...run.points.map((point) => point.y)], load));
    const own = used.map((run) => between([0, ...run.points.map((point) => point.x)], [run.points[0]?.yUncertainty ?? 0, ...run.points.map((point) => point.yUncertainty ?? 0)], load));
    const scatter = used.length > 1 ? standardDeviation(values) / Math.sqrt(used.length) : 0;
    deflectionM.push(mean(values));
    uncertaintyM.push(Math.hypot(mean(own), scatter));
  }
  return { wheel, runs: used.map((run) => run.id), loadN, deflectionM, uncertaintyM };
}

/** The deflection at a load by a straight line between the curve's points; undetermined beyond the loads measured. */
export function deflectionAt(curve: DeflectionCurve, loadN: number): Estimate<"m"> {
  const greatestN = curve.loadN[curve.loadN.length - 1] ?? Number.NaN;
  if (!(loadN >= 0 && loadN <= greatestN)) {
    return undetermined("m", `the deflection of wheel ${curve.wheel} is measured from 0 to ${greatestN.toPrecision(4)} N; ${loadN.toPrecision(4)} N lies outside`);
  }
  const cause = `deflection curve of wheel ${curve.wheel}`;
  return estimateFrom(between(curve.loadN, curve.deflectionM, loadN), "m", `deflection read between measured loads of ${curve.runs.join(", ")}`, [
    { cause, effect: between(curve.loadN, curve.uncertaintyM, loadN), sharedBy: cause, degreesOfFreedom: Infinity },
  ]);
}

/** Straight line between rising abscissae; x inside their range. */
function between(x: readonly number[], y: readonly number[], at: number): number {
  let i = 1;
  while (i < x.length - 1 && (x[i] as number) < at) i++;
  const share = (at - (x[i - 1] as number)) / ((x[i] as number) - (x[i - 1] as number));
  return (y[i - 1] as number) * (1 - share) + (y[i] as number) * share;
}
