import { normalQuantile } from "./distributions.ts";

/** A logistic curve of success over x, and how far to trust it. */
export interface LogisticFit {
  readonly intercept: number;
  readonly slope: number;
  /** of (intercept, slope): inverse of the information at the maximum */
  readonly covariance: readonly [readonly [number, number], readonly [number, number]];
  /** −2 ln L */
  readonly deviance: number;
  /** −2 ln L of one probability for all */
  readonly nullDeviance: number;
  /** fitted: use it. oneOutcome: all went alike. separated: one x splits the outcomes, the steepest curve is the likeliest. oneX: x never changed. */
  readonly verdict: "fitted" | "oneOutcome" | "separated" | "oneX";
  /** for `separated`: the greatest x on one side and the least on the other */
  readonly gap: readonly [number, number] | null;
  readonly steps: number;
}

const mostSteps = 100;

const logistic = (eta: number): number => 1 / (1 + Math.exp(-eta));
/** ln(1 + e^η) without overflow. */
const softplus = (eta: number): number => (eta > 0 ? eta + Math.log1p(Math.exp(-eta)) : Math.log1p(Math.exp(eta)));
const devianceOf = (eta: readonly number[], success: readonly boolean[]): number => eta.reduce((sum, value, i) => sum + 2 * softplus(success[i] === true ? -value : value), 0);

/**
 * Logistic regression of yes-or-no outcomes on one quantity, by iteratively reweighted least squares.
 *
 *   P = 1 / (1 + e^(−(a + b x)))      weights P(1 − P),  working response η + (y − P)/(P(1 − P))
 *
 * Maximum likelihood; x counts as exact, outcomes as independent. a has no unit, b is per unit of x. Where one value of x
 * separates the outcomes (touching counts), where all outcomes are alike, or where x never changes, the likelihood has no
 * maximum: the verdict says so and the numbers are NaN. Steps that raise the deviance are halved.
 *
 * @param x        at least 2 values
 * @param success  as many outcomes
 * @returns        intercept, slope, covariance, deviances, verdict
 * @throws         RangeError if the lengths differ, there are fewer than 2, or an x is not finite
 * @source         McCullagh & Nelder, Generalized Linear Models, 2.5 and 4.4 (from memory); separation: Albert & Anderson, Biometrika 71 (1984) 1 (from memory)
 * @checked        tests/numerics/logisticFit.test.ts
 */
export function logisticFit(x: readonly number[], success: readonly boolean[]): LogisticFit {
  if (x.length !== success.length) throw new RangeError(`logisticFit: expected ${x.length} outcomes, found ${success.length}`);
  if (x.length < 2 || !x.every(Number.isFinite)) throw new RangeError("logisticFit: expected at least 2 finite values of x");
  const count = success.filter(Boolean).length;
  const share = count / x.length;
  const nullDeviance = count === 0 || count === x.length ? 0 : devianceOf(x.map(() => Math.log(share / (1 - share))), success);
  const none = (verdict: LogisticFit["verdict"], gap: LogisticFit["gap"] = null): LogisticFit => ({ intercept: Number.NaN, slope: Number.NaN, covariance: [[Number.NaN, Number.NaN], [Number.NaN, Number.NaN]], deviance: Number.NaN, nullDeviance, verdict, gap, steps: 0 });
  if (count === 0 || count === x.length) return none("oneOutcome");
  if (x.every((value) => value === x[0])) return none("oneX");
  const gap = gapBetween(x, success);
  if (gap !== null) return none("separated", gap);

  // Centred and scaled, so that the two constants are about equally large and nearly independent.
  const centre = x.reduce((sum, value) => sum + value, 0) / x.length;
  const scale = Math.sqrt(x.reduce((sum, value) => sum + (value - centre) ** 2, 0) / x.length);
  const z = x.map((value) => (value - centre) / scale);
  const etaOf = (a: number, b: number): number[] => z.map((value) => a + b * value);
  let [a, b] = [Math.log(share / (1 - share)), 0];
  let deviance = nullDeviance;
  let steps = 0;
  let information = informationAt(etaOf(a, b), z);
  for (; steps < mostSteps; steps++) {
    const residual = etaOf(a, b).map((eta, i) => (success[i] === true ? 1 : 0) - logistic(eta));
    const g0 = residual.reduce((sum, value) => sum + value, 0);
    const g1 = residual.reduce((sum, value, i) => sum + value * (z[i] as number), 0);
    const { i00, i01, i11, determinant } = information;
    let [da, db] = [(i11 * g0 - i01 * g1) / determinant, (i00 * g1 - i01 * g0) / determinant];
    let next = devianceOf(etaOf(a + da, b + db), success);
    for (let half = 0; half < 30 && !(next <= deviance + 1e-12 * Math.abs(deviance)); half++) {
      [da, db] = [da / 2, db / 2];
      next = devianceOf(etaOf(a + da, b + db), success);
    }
    [a, b, deviance] = [a + da, b + db, next];
    information = informationAt(etaOf(a, b), z);
    if (Math.hypot(da, db) < 1e-12 * (1 + Math.hypot(a, b))) break;
  }
  const { i00, i01, i11, determinant } = information;
  const slope = b / scale;
  const [vaa, vab, vbb] = [i11 / determinant, -i01 / determinant, i00 / determinant];
  const shift = centre / scale;
  const covariance = [[vaa - 2 * shift * vab + shift ** 2 * vbb, (vab - shift * vbb) / scale], [(vab - shift * vbb) / scale, vbb / scale ** 2]] as const;
  return { intercept: a - slope * centre, slope, covariance, deviance, nullDeviance, verdict: "fitted", gap: null, steps };
}

function informationAt(eta: readonly number[], z: readonly number[]): { readonly i00: number; readonly i01: number; readonly i11: number; readonly determinant: number } {
  const weights = eta.map((value) => logistic(value) * (1 - logistic(value)));
  const i00 = weights.reduce((sum, w) => sum + w, 0);
  const i01 = weights.reduce((sum, w, i) => sum + w * (z[i] as number), 0);
  const i11 = weights.reduce((sum, w, i) => sum + w * (z[i] as number) ** 2, 0);
  return { i00, i01, i11, determinant: i00 * i11 - i01 ** 2 };
}

/** Where one x splits the outcomes: the two values beside the split; null when they overlap. */
function gapBetween(x: readonly number[], success: readonly boolean[]): readonly [number, number] | null {
  const yes = x.filter((_, i) => success[i] === true);
  const no = x.filter((_, i) => success[i] !== true);
  if (Math.max(...yes) <= Math.min(...no)) return [Math.max(...yes), Math.min(...no)];
  if (Math.max(...no) <= Math.min(...yes)) return [Math.max(...no), Math.min(...yes)];
  return null;
}

/**
 * The x at which a fitted logistic curve passes a probability, with its standard error to first order.
 *
 *   x_p = (logit p − a) / b      u² = (V_aa + 2 x_p V_ab + x_p² V_bb) / b²
 *
 * Symmetric, so poor for steep or sparse data: `logisticInterval` gives what the likelihood allows.
 *
 * @param fit          a fitted curve
 * @param probability  p, between 0 and 1
 * @returns            x_p and its standard error, in unit of x
 * @source             delta method; D. J. Finney, Probit Analysis (from memory)
 * @checked            tests/numerics/logisticFit.test.ts
 */
export function logisticAt(fit: LogisticFit, probability: number): { readonly x: number; readonly standardError: number } {
  const x = (logit(probability) - fit.intercept) / fit.slope;
  const [[aa, ab], [, bb]] = fit.covariance;
  return { x, standardError: Math.sqrt(aa + 2 * x * ab + x ** 2 * bb) / Math.abs(fit.slope) };
}

/**
 * Interval of the x at which the curve passes a probability, by profile likelihood.
 *
 *   { x : min over b of D(b, x) − D_min ≤ z² },   η = b (xᵢ − x) + logit p,   z the normal quantile of the confidence
 *
 * Not symmetric, and open to a side on which the data set no bound.
 *
 * @param fit          the fitted curve of the same data
 * @param x            the values it was fitted to
 * @param success      their outcomes
 * @param probability  p, between 0 and 1
 * @param confidence   e.g. 0.95
 * @returns            the ends in unit of x; −Infinity or Infinity where the data set none
 * @source             profile likelihood: Venzon & Moolgavkar, Applied Statistics 37 (1988) 87 (from memory)
 * @checked            tests/numerics/logisticFit.test.ts
 */
export function logisticInterval(fit: LogisticFit, x: readonly number[], success: readonly boolean[], probability: number, confidence: number): readonly [number, number] {
  const { x: best, standardError } = logisticAt(fit, probability);
  const limit = fit.deviance + normalQuantile((1 + confidence) / 2) ** 2;
  const excess = (at: number): number => profileDeviance(x, success, at, logit(probability)) - limit;
  const end = (direction: 1 | -1): number => {
    let inside = best;
    let step = standardError / 2;
    let outside = best + direction * step;
    for (let doubling = 0; excess(outside) <= 0; doubling++) {
      if (doubling > 40) return direction * Infinity;
      inside = outside;
      step *= 2;
      outside = best + direction * step;
    }
    for (let i = 0; i < 60; i++) {
      const middle = (inside + outside) / 2;
      if (excess(middle) <= 0) inside = middle;
      else outside = middle;
    }
    return (inside + outside) / 2;
  };
  return [end(-1), end(1)];
}

const logit = (probability: number): number => Math.log(probability / (1 - probability));

/** Least deviance of a curve that passes the logit at that x: one slope is left, and the deviance is convex in it. */
function profileDeviance(x: readonly number[], success: readonly boolean[], at: number, level: number): number {
  const z = x.map((value) => value - at);
  const etaOf = (b: number): number[] => z.map((value) => b * value + level);
  let b = 0;
  let deviance = devianceOf(etaOf(b), success);
  for (let i = 0; i < mostSteps; i++) {
    const p = etaOf(b).map(logistic);
    const gradient = z.reduce((sum, value, k) => sum + value * ((success[k] === true ? 1 : 0) - (p[k] as number)), 0);
    const information = z.reduce((sum, value, k) => sum + value ** 2 * (p[k] as number) * (1 - (p[k] as number)), 0);
    let step = gradient / information;
    let next = devianceOf(etaOf(b + step), success);
    for (let half = 0; half < 40 && !(next <= deviance); half++) {
      step /= 2;
      next = devianceOf(etaOf(b + step), success);
    }
    if (!(next <= deviance)) break;
    const moved = deviance - next;
    [b, deviance] = [b + step, next];
    if (moved < 1e-12 * (1 + deviance)) break;
  }
  return deviance;
}
