import { symmetricInverse } from "./linearAlgebra.ts";

/** How long a specimen ran, and whether it had failed then. */
export interface Life {
  readonly value: number;
  /** false = it was still sound when it was taken off (right-censored) */
  readonly failed: boolean;
}

/** A Weibull distribution of lives. */
export interface WeibullFit {
  readonly shape: number;
  readonly scale: number;
  /** standard errors of ln shape and ln scale, and their correlation, from the observed information */
  readonly logShapeError: number;
  readonly logScaleError: number;
  readonly correlation: number;
  readonly logLikelihood: number;
  readonly failures: number;
}

/**
 * Weibull distribution of lives by maximum likelihood, specimens that have not failed included.
 *
 *   F(t) = 1 − exp(−(t/η)^β)
 *   β: Σ t^β ln t / Σ t^β − 1/β = mean of ln t over the failures      η = (Σ t^β / r)^(1/β)
 *
 * Sums without a remark run over all specimens, r is the number of failures. Unit of η: that of the lives; β has none.
 * The standard errors hold for many failures; with few, intervals built on them are too narrow.
 *
 * @param lives  at least two failures at different lives, all lives > 0
 * @returns      shape β, scale η and their uncertainty on the logarithmic scale; null with fewer than two different failures
 * @throws       RangeError if a life is not above zero
 * @source       NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1.3
 * @checked      tests/numerics/weibullFit.test.ts
 */
export function weibullFit(lives: readonly Life[]): WeibullFit | null {
  for (const { value } of lives) if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`weibullFit: expected lives above zero, found ${value}`);
  const failed = lives.filter((life) => life.failed);
  const failures = failed.length;
  if (new Set(failed.map((life) => life.value)).size < 2) return null;
  // In units of the longest life no power overflows.
  const unit = Math.max(...lives.map((life) => life.value));
  const logs = lives.map((life) => Math.log(life.value / unit));
  const meanLog = failed.reduce((sum, life) => sum + Math.log(life.value / unit), 0) / failures;
  const sums = (shape: number): readonly [number, number, number] => {
    let [s0, s1, s2] = [0, 0, 0];
    for (const log of logs) {
      const power = Math.exp(shape * log);
      s0 += power;
      s1 += power * log;
      s2 += power * log * log;
    }
    return [s0, s1, s2];
  };
  const score = (shape: number): number => {
    const [s0, s1] = sums(shape);
    return s1 / s0 - 1 / shape - meanLog;
  };
  let [low, high] = [1e-3, 1];
  while (score(high) < 0) [low, high] = [high, 2 * high];
  for (let step = 0; step < 200 && high - low > 1e-15 * high; step++) {
    const middle = (low + high) / 2;
    if (score(middle) < 0) low = middle;
    else high = middle;
  }
  const shape = (low + high) / 2;
  const [s0, s1, s2] = sums(shape);
  const logScale = Math.log(s0 / failures) / shape;
  // Observed information in a = ln β and b = ln η; with zᵢ = β (ln tᵢ − b): −∂²L/∂a² = Σ e^z z (1 + z) − Σ_failed z, and so on.
  const [e0, e1, e2] = [s0, s1, s2].map((sum) => sum * Math.exp(-shape * logScale)) as [number, number, number];
  const z1 = shape * (e1 - logScale * e0);
  const z2 = shape ** 2 * (e2 - 2 * logScale * e1 + logScale ** 2 * e0);
  const failedZ = shape * failures * (meanLog - logScale);
  const inverse = symmetricInverse([[z1 + z2 - failedZ, -shape * (e0 - failures + z1)], [-shape * (e0 - failures + z1), shape ** 2 * e0]]);
  if (inverse === null) return null;
  const [[va, vab], [, vb]] = inverse as [[number, number], [number, number]];
  return {
    shape,
    scale: unit * Math.exp(logScale),
    logShapeError: Math.sqrt(va),
    logScaleError: Math.sqrt(vb),
    correlation: vab / Math.sqrt(va * vb),
    logLikelihood: failures * (Math.log(shape) - logScale - Math.log(unit)) + (shape - 1) * failures * (meanLog - logScale) - e0,
    failures,
  };
}
