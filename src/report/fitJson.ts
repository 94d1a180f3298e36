import type { Fit } from "../core/fit.ts";
import type { Band } from "../processing/dayResult.ts";
import { estimateJson, finite } from "./stableJson.ts";
import type { Json } from "./stableJson.ts";
import { findingJson } from "./runJson.ts";

/** A fit with everything that tells how far to trust it. */
export function fitJson(fit: Fit): Json {
  return {
    model: fit.model,
    formula: fit.formula,
    verdict: fit.verdict,
    sentence: fit.sentence,
    parameters: fit.parameters.map((parameter) => ({ name: parameter.name, symbol: parameter.symbol, estimate: estimateJson(parameter.estimate) })),
    covariance: fit.covariance.map((row) => row.map(finite)),
    degreesOfFreedom: finite(fit.degreesOfFreedom),
    points: fit.points.map((point) => ({
      run: point.run,
      x: finite(point.x),
      y: finite(point.y),
      yUncertainty: point.yUncertainty === null ? null : finite(point.yUncertainty),
      kept: point.kept,
      reason: point.reason,
    })),
    residuals: fit.residuals.map(finite),
    findings: fit.findings.map(findingJson),
  };
}

export function bandJson(band: Band | null): Json {
  if (band === null) return null;
  return { x: band.x.map(finite), value: band.value.map(finite), low: band.low.map(finite), high: band.high.map(finite) };
}
