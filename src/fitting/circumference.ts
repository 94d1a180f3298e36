import type { Estimate } from "../core/estimate.ts";
import { combine, undetermined } from "../core/estimate.ts";
import type { Fit, FitPoint } from "../core/fit.ts";
import { groupBy } from "../core/groupBy.ts";
import { firstHarmonic } from "../models/firstHarmonic.ts";
import { fQuantile } from "../numerics/distributions.ts";
import { leastSquares, symmetricInverse } from "../numerics/linearAlgebra.ts";
import type { Circumference, RunResult } from "../processing/dayResult.ts";
import { functionOfFit, parameterEstimates } from "./parameterEstimates.ts";
import { barred, measureOf, refusedPoint } from "./refusedPoint.ts";
import { sharedEffects, unsharedUncertainty } from "./sharedEffects.ts";

/** What is followed round the wheel. */
const followed = ["secantStiffness", "deflection"] as const;
/** Three angles fit any wave; the fourth shows whether it is one. */
const fewestAngles = 4;
/** stretches of the turn that is drawn */
const drawn = 60;

/**
 * How stiffness and deflection vary round each wheel: load–deflection runs of one wheel and set load at several contact
 * angles, their mean, their range, and the amplitude of one wave a turn.
 *
 * Points count alike. Their scatter is what the residuals show, and no less than the runs' own uncertainties; shared
 * calibrations are added afterwards. The amplitude is called determined when one wave a turn explains the variation
 * better than chance (F test at 95 %).
 *
 * @param runs   all runs of the day
 * @returns      one entry per wheel, set load and measure that was pressed at two contact angles or more
 * @source       least squares with a Fourier series; F test for an added term: Draper & Smith, Applied Regression Analysis (from memory)
 * @checked      tests/fitting/circumference.test.ts
 */
export function circumferencesFrom(runs: readonly RunResult[]): Circumference[] {
  const pressed = runs.filter((run) => run.plan.kind === "loadDeflection" && run.plan.wheel !== null && run.plan.contactAngleRad !== null);
  const groups = [...groupBy(pressed, (run) => `${run.plan.wheel}\u0000${run.plan.setLoadN}`).values()].filter((group) => new Set(group.map((run) => run.plan.contactAngleRad)).size > 1);
  return groups.flatMap((group) => followed.map((name) => around(group, name)));
}

interface AnglePoint {
  readonly run: string;
  readonly angleRad: number;
  readonly estimate: Estimate;
}

function around(group: readonly RunResult[], name: (typeof followed)[number]): Circumference {
  const points: AnglePoint[] = [];
  const refused: FitPoint[] = [];
  for (const run of group) {
    const estimate = measureOf(run, name)?.estimate;
    const reason = barred(run) ?? (estimate === undefined ? "not measured" : estimate.standardUncertainty === null ? estimate.method : null);
    if (reason !== null || estimate === undefined) refused.push(refusedPoint(run, run.plan.contactAngleRad, estimate?.value, reason ?? "not measured"));
    else points.push({ run: run.plan.id, angleRad: run.plan.contactAngleRad as number, estimate });
  }
  const first = group[0] as RunResult;
  const unit = name === "deflection" ? "m" : "N/m";
  const estimates = points.map((point) => point.estimate);
  const mean = estimates.length === 0 ? undetermined(unit, "no run gave it") : combine(estimates, (...values) => values.reduce((a, b) => a + b, 0) / values.length, unit, `mean over ${points.length} contact angles`);
  const fit = waveFit(points, refused, unit);
  return { wheel: first.plan.wheel as string, setLoadN: first.plan.setLoadN, measure: name, runs: points.map((point) => point.run), mean, range: rangeOf(estimates, unit), amplitude: amplitudeOf(fit, unit), fit, wave: waveOf(fit) };
}

/** Greatest less least; what both share cancels. Of noisy values it is never small: its uncertainty stands beside it. */
function rangeOf(estimates: readonly Estimate[], unit: "m" | "N/m"): Estimate {
  if (estimates.length < 2) return undetermined(unit, "two contact angles are needed");
  const sorted = [...estimates].sort((a, b) => a.value - b.value);
  return combine([sorted.at(-1) as Estimate, sorted[0] as Estimate], (high = Number.NaN, low = Number.NaN) => high - low, unit, `greatest less least of ${estimates.length} contact angles`);
}

function waveFit(points: readonly AnglePoint[], refused: readonly FitPoint[], unit: "m" | "N/m"): Fit {
  const shared = { model: "one wave round the wheel", formula: `y = y0 + a · cos θ + b · sin θ, in ${unit}; θ from the wheel's mark`, findings: [] };
  const kept = points.map((point): FitPoint => ({ run: point.run, x: point.angleRad, y: point.estimate.value, yUncertainty: unsharedUncertainty(point.estimate), kept: true, reason: "" }));
  const open = (sentence: string): Fit => ({ ...shared, parameters: [], covariance: [], points: [...kept, ...refused], residuals: [], degreesOfFreedom: 0, verdict: "undetermined", sentence });
  const angles = new Set(points.map((point) => Math.round((((point.angleRad % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI)) * 1e6)));
  if (angles.size < fewestAngles) return open(`${angles.size} contact angles; ${fewestAngles} are needed to tell one wave a turn from chance. Press at more angles.`);
  const rows = points.map(({ angleRad }) => [1, Math.cos(angleRad), Math.sin(angleRad)]);
  const solved = leastSquares(rows, points.map((point) => point.estimate.value));
  if (solved.rank < 3) return open("The contact angles do not tell a wave a turn from the mean. Spread them round the wheel.");
  const degreesOfFreedom = points.length - 3;
  const fromResiduals = solved.residuals.reduce((sum, residual) => sum + residual ** 2, 0) / degreesOfFreedom;
  const own = kept.reduce((sum, point) => sum + (point.yUncertainty as number) ** 2, 0) / kept.length;
  const variance = Math.max(fromResiduals, own);
  const unshared = solved.covarianceFactor.map((row) => row.map((value) => value * variance));
  const shifts = sharedEffects(points.map((point) => point.estimate)).map(({ effects, ...cause }) => ({ ...cause, shifts: leastSquares(rows, effects).solution }));
  const names = [["meanRound", "y0"], ["cosinePart", "a"], ["sinePart", "b"]].map(([name, symbol]) => ({ name: name as string, symbol: symbol as string, unit }));
  const fitted = parameterEstimates(solved.solution, names, unshared, degreesOfFreedom, "scatter round the wheel", shifts, "least squares, angles alike");
  const wave = solved.solution.slice(1);
  const inverse = symmetricInverse(unshared.slice(1).map((row) => row.slice(1))) as number[][];
  const f = wave.reduce((sum, a, i) => sum + wave.reduce((inner, b, j) => inner + a * b * ((inverse[i] as number[])[j] as number), 0), 0) / 2;
  const limit = fQuantile(0.95, 2, degreesOfFreedom);
  const told = f > limit;
  return {
    ...shared,
    ...fitted,
    points: [...kept, ...refused],
    residuals: solved.residuals,
    degreesOfFreedom,
    verdict: told ? "determined" : "undetermined",
    sentence: told ? `One wave a turn explains the variation over ${points.length} contact angles better than chance (F = ${f.toFixed(1)}, limit ${limit.toFixed(1)}).` : `Over ${points.length} contact angles one wave a turn is not told from chance (F = ${f.toFixed(1)}, limit ${limit.toFixed(1)}).`,
  };
}

function amplitudeOf(fit: Fit, unit: "m" | "N/m"): Estimate {
  const [, a, b] = fit.parameters.map((parameter) => parameter.estimate.value);
  if (fit.verdict === "undetermined" || a === undefined || b === undefined) return undetermined(unit, fit.sentence);
  const size = Math.hypot(a, b);
  return functionOfFit(fit, size, [0, a / size, b / size], unit, "amplitude of one wave a turn, √(a² + b²)");
}

/** The fitted wave over a turn. */
function waveOf(fit: Fit): Circumference["wave"] {
  const [mean, cosine, sine] = fit.parameters.map((parameter) => parameter.estimate.value);
  if (mean === undefined || cosine === undefined || sine === undefined) return [];
  return Array.from({ length: drawn + 1 }, (_, i) => (2 * Math.PI * i) / drawn).map((angleRad) => ({ angleRad, value: firstHarmonic(angleRad, { mean, cosine, sine }) }));
}
