import { estimateFrom, undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import { normalQuantile } from "../numerics/distributions.ts";
import { productLimit } from "../numerics/survival.ts";
import { weibullFit } from "../numerics/weibullFit.ts";
import type { LifeFit, WheelLife } from "../processing/enduranceResult.ts";

const fewFailures = 10;
const drawnSteps = 60;

/**
 * Distribution of the distances at which wheels failed, those that have not failed included.
 *
 *   F(x) = 1 − exp(−(x/η)^β)        B10 = η (−ln 0.9)^(1/β)
 *   u²(ln B10) = u²(ln η) + (c/β)² u²(ln β) − 2 (c/β) u(ln β, ln η),  c = ln(−ln 0.9)
 *
 * Distances [m]. A wheel counts as failed where the inspection found it, late by up to one interval. Interval of B10: ± 1.96
 * standard errors of its logarithm, which hold for many failures. Undetermined with fewer than two failures at different
 * distances.
 *
 * @param lives  one wheel each
 * @returns      the fit, B10 and the product limit
 * @source       NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1.3; propagation: JCGM 100:2008, 5.2.2
 * @checked      tests/fitting/lifeFit.test.ts
 */
export function lifeFit(lives: readonly WheelLife[]): LifeFit {
  const run = lives.filter((life) => life.distanceM > 0);
  const values = run.map(({ distanceM, failed }) => ({ value: distanceM, failed }));
  const survival = productLimit(values).map(({ at, survival: share }) => ({ distanceM: at, share }));
  const failed = run.filter((life) => life.failed).length;
  const weibull = weibullFit(values);
  const shape = {
    model: "Weibull distribution of lives",
    formula: "F(x) = 1 − exp(−(x/η)^β); x distance",
    points: lives.map(({ wheel, distanceM, failed: broke }) => ({ run: wheel, x: distanceM, y: broke ? 1 : 0, yUncertainty: null, kept: distanceM > 0, reason: distanceM > 0 ? "" : "has not run" })),
    residuals: [],
  };
  if (weibull === null) {
    const sentence = `${failed} of ${run.length} ${run.length === 1 ? "wheel" : "wheels"} failed; a distribution of lives needs at least 2 failures at different distances.`;
    return { lives, survival, fitted: [], b10: undetermined("m", sentence), b10Interval: null, fit: { ...shape, parameters: [], covariance: [], degreesOfFreedom: 0, verdict: "undetermined", sentence, findings: [] } };
  }
  const { logShapeError: a, logScaleError: b, correlation } = weibull;
  const method = `maximum likelihood, ${failed} failures, ${run.length - failed} still sound`;
  const estimate = <U extends "1" | "m">(value: number, unit: U, logError: number): Estimate<U> => estimateFrom(value, unit, method, [{ cause: "which wheels failed when", effect: value * logError, sharedBy: null, degreesOfFreedom: Infinity }]);
  const c = Math.log(-Math.log(0.9)) / weibull.shape;
  const b10 = weibull.scale * Math.exp(c);
  const logError = Math.sqrt(b * b + c * c * a * a - 2 * c * correlation * a * b);
  const reach = Math.exp(normalQuantile(0.975) * logError);
  const mixed = correlation * a * b * weibull.shape * weibull.scale;
  return {
    lives,
    survival,
    fitted: Array.from({ length: drawnSteps + 1 }, (_, i) => (i * Math.max(...values.map(({ value }) => value))) / drawnSteps).map((distanceM) => ({ distanceM, share: Math.exp(-((distanceM / weibull.scale) ** weibull.shape)) })),
    fit: {
      ...shape,
      parameters: [{ name: "shape", symbol: "β", estimate: estimate(weibull.shape, "1", a) }, { name: "scale", symbol: "η", estimate: estimate(weibull.scale, "m", b) }],
      covariance: [[(weibull.shape * a) ** 2, mixed], [mixed, (weibull.scale * b) ** 2]],
      degreesOfFreedom: Infinity,
      verdict: "determined",
      sentence: `${failed} of ${run.length} wheels failed.`,
      findings: failed < fewFailures ? [finding("few-failures", "note", `The distribution of lives rests on ${failed} failures: its intervals, which hold for many, are too narrow`, { measured: failed, limit: fewFailures })] : [],
    },
    b10: estimate(b10, "m", logError),
    b10Interval: { low: b10 / reach, high: b10 * reach },
  };
}
