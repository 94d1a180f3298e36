import { estimateFrom, undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { groupBy } from "../core/groupBy.ts";
import { leastSquares } from "../numerics/linearAlgebra.ts";
import { mean, standardDeviation } from "../numerics/statistics.ts";
import type { ConeBed, CovariateEffect, PullCurve, RunResult } from "../processing/dayResult.ts";
import { constantsOf } from "./readSlipCurve.ts";
import { measureOf } from "./refusedPoint.ts";
import { slipShape } from "./slipShapes.ts";

/** Different values below which a covariate cannot be told from chance. */
const fewestValues = 3;
/** Times its own uncertainty that a covariate must spread: what is read no better than it differs says nothing, and would come out too small. */
const clear = 2;

interface Reading {
  readonly value: number;
  readonly uncertainty: number;
}

/**
 * How the pull coefficient changes with the firmness of the bed and with speed, beside slip and load, wheel by wheel.
 *
 *   r_i = Σ_j (∂f/∂constant_j) δ_j + E (x_i − x̄)      weighted least squares over all of a wheel's curves together
 *
 * r: residuals of the fitted curves; their constants may move along, so that a covariate that goes with slip is not
 * taken for one. Bed: x = 10 (G/Ḡ − 1), E per 10 % of cone index gradient. Speed: x = log₂(v/v̄), E per doubling.
 * Not determined with fewer than 3 different values, or where they spread less than twice their own uncertainty.
 *
 * @param curves   the day's pull–slip curves; those not determined do not count
 * @param runs     all runs of the day
 * @param cones    cone index gradient by bed
 * @returns        an entry per wheel and covariate
 * @source         partial regression (Frisch and Waugh, Econometrica 1 (1933) 387, from memory); limits common practice
 * @checked        tests/fitting/covariateEffects.test.ts
 */
export function covariateEffectsFrom(curves: readonly PullCurve[], runs: readonly RunResult[], cones: readonly Pick<ConeBed, "bed" | "gradient">[]): CovariateEffect[] {
  const runOf = new Map(runs.map((run) => [run.plan.id, run]));
  const gradients = new Map(cones.map(({ bed, gradient }) => [bed, reading(gradient)]));
  const gradientOf = (id: string): Reading | null => gradients.get(runOf.get(id)?.plan.bed ?? "") ?? null;
  const speedOf = (id: string): Reading | null => {
    const run = runOf.get(id);
    return run === undefined ? null : reading(measureOf(run, "carriageSpeed")?.estimate);
  };
  return [...groupBy(curves, (curve) => curve.wheel)].flatMap(([wheel, own]) => [
    { wheel, covariate: "coneGradient" as const, ...effect(own, gradientOf, (value, middle) => 10 * (value / middle - 1), mean, "cone index gradient of the beds", "per 10 % of cone index gradient") },
    { wheel, covariate: "speed" as const, ...effect(own, speedOf, (value, middle) => Math.log2(value / middle), (values) => Math.exp(mean(values.map(Math.log))), "carriage speed", "per doubling of the carriage speed") },
  ]);
}

function reading(estimate: Estimate | undefined): Reading | null {
  return estimate === undefined || estimate.standardUncertainty === null || !(estimate.value > 0) ? null : { value: estimate.value, uncertainty: estimate.standardUncertainty };
}

function effect(curves: readonly PullCurve[], of: (run: string) => Reading | null, scale: (value: number, middle: number) => number, middleOf: (values: number[]) => number, what: string, per: string): Omit<CovariateEffect, "wheel" | "covariate"> {
  const determined = curves.filter((curve) => curve.fit.verdict === "determined");
  const points = determined.flatMap((curve, block) => {
    const between = curve.fit.findings.find((found) => found.code === "scatter-between-runs")?.measured ?? 0;
    return curve.fit.points.filter((point) => point.kept).flatMap((point, i) => {
      const covariate = of(point.run);
      return covariate === null ? [] : [{ run: point.run, block, slip: point.x, residual: curve.fit.residuals[i] as number, doubt: Math.hypot(point.yUncertainty ?? 0, between), covariate }];
    });
  });
  const values = points.map((point) => point.covariate.value);
  const runs = points.map((point) => point.run);
  const none = (reason: string): Omit<CovariateEffect, "wheel" | "covariate"> => ({ estimate: undetermined("1", reason), runs, middle: values.length === 0 ? Number.NaN : middleOf(values) });
  if (determined.length === 0) return none("no pull–slip curve of this wheel is determined");
  const different = new Set(values).size;
  if (different < fewestValues) return none(`${different} different ${different === 1 ? "value" : "values"} of ${what}; ${fewestValues} are needed`);
  const middle = middleOf(values);
  const [spread, doubt] = [standardDeviation(values), mean(points.map((point) => point.covariate.uncertainty))];
  if (spread < clear * doubt) return none(`the ${what} spreads by ${percent(spread / middle)}, its own uncertainty is ${percent(doubt / middle)}: the runs do not differ enough in it`);
  const shapes = determined.map((curve) => ({ shape: slipShape(curve.shape, curve.knots), constants: constantsOf(curve) }));
  const x = values.map((value) => scale(value, middle));
  const rows = points.map((point, i) => [...shapes.flatMap(({ shape, constants }, block) => (block === point.block ? shape.slopes(point.slip, constants).byConstants : constants.map(() => 0))), x[i] as number]);
  const columns = rows[0]?.length ?? 0;
  const degreesOfFreedom = points.length - columns;
  if (degreesOfFreedom < 1) return none(`${points.length} runs for ${columns} constants leave none over`);
  const weights = points.map((point) => 1 / point.doubt ** 2);
  const solved = leastSquares(rows, points.map((point) => point.residual), weights);
  const slope = solved.solution[columns - 1] as number;
  if (Number.isNaN(slope)) return none(`the ${what} changes along with slip or load and cannot be told from them`);
  const chiSquare = solved.residuals.reduce((sum, value, i) => sum + (weights[i] as number) * value ** 2, 0);
  const uncertainty = Math.sqrt((solved.covarianceFactor[columns - 1]?.[columns - 1] ?? Number.NaN) * (chiSquare / degreesOfFreedom));
  const row = { cause: `scatter of ${runs.join(", ")} about their curves`, effect: uncertainty, sharedBy: null, degreesOfFreedom };
  return { estimate: estimateFrom(slope, "1", `change of the pull coefficient ${per}, ${points.length} runs with ${different} values`, [row]), runs, middle };
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
