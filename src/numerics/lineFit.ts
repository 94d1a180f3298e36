import { TheilSenRegression } from "ml-regression";
import { leastSquares } from "./linearAlgebra.ts";
import { mean, median, standardDeviation } from "./statistics.ts";

/** A straight line y = intercept + slope · x with its doubt. */
export interface Line {
  readonly intercept: number;
  readonly slope: number;
  /** of (intercept, slope) */
  readonly covariance: readonly [readonly [number, number], readonly [number, number]];
  /** √(Σ w r² / degreesOfFreedom); NaN when there are no degrees of freedom */
  readonly residualSd: number;
  readonly degreesOfFreedom: number;
  /** share of the weighted scatter of y the line explains; NaN when y is constant */
  readonly rSquared: number;
}

/**
 * Straight line by (weighted) least squares, on centred values.
 *
 *   slope = Σ w (x − x̄)(y − ȳ) / Σ w (x − x̄)²        intercept = ȳ − slope x̄
 *   covariance = s² · (XᵀWX)⁻¹,   s² = Σ w r² / (n − 2)
 *
 * Slope in unit of y per unit of x. The covariance is scaled by the scatter found: weights need only be right up to a
 * common factor. x counts as exact; y scatters independently. Where all x are equal the line is undetermined: NaN.
 *
 * @param x       at least 2 values
 * @param y       as many
 * @param weights wᵢ > 0 up to a common factor, usually 1/u²(yᵢ); all 1 when left out
 * @returns       { intercept, slope, covariance, residualSd, degreesOfFreedom, rSquared }; covariance is NaN for 2 points
 * @throws        RangeError if the lengths differ, there are fewer than 2 points, or a weight is not above zero
 * @source        Draper & Smith, Applied Regression Analysis, chapter 1 (from memory)
 * @checked       tests/numerics/lineFit.test.ts
 */
export function lineFit(x: ArrayLike<number>, y: ArrayLike<number>, weights?: ArrayLike<number>): Line {
  const n = x.length;
  requirePairs("lineFit", x, y, 2);
  if (weights !== undefined && weights.length !== n) throw new RangeError(`lineFit: expected ${n} weights, found ${weights.length}`);
  const { centreX, centreY, weightSum } = centres(x, y, weights);
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (let i = 0; i < n; i++) {
    const weight = weights === undefined ? 1 : (weights[i] as number);
    const dx = (x[i] as number) - centreX;
    const dy = (y[i] as number) - centreY;
    xx += weight * dx * dx;
    xy += weight * dx * dy;
    yy += weight * dy * dy;
  }
  const slope = xx === 0 ? Number.NaN : xy / xx;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const weight = weights === undefined ? 1 : (weights[i] as number);
    const residual = (y[i] as number) - centreY - slope * ((x[i] as number) - centreX);
    squares += weight * residual * residual;
  }
  const degreesOfFreedom = n - 2;
  const variance = degreesOfFreedom > 0 ? squares / degreesOfFreedom : Number.NaN;
  const slopeVariance = variance / xx;
  const mixed = -centreX * slopeVariance;
  return {
    intercept: centreY - slope * centreX,
    slope,
    covariance: [[variance / weightSum + centreX * centreX * slopeVariance, mixed], [mixed, slopeVariance]],
    residualSd: Math.sqrt(variance),
    degreesOfFreedom,
    rSquared: yy === 0 ? Number.NaN : 1 - squares / yy,
  };
}

function centres(x: ArrayLike<number>, y: ArrayLike<number>, weights?: ArrayLike<number>): { centreX: number; centreY: number; weightSum: number } {
  if (weights === undefined) return { centreX: mean(x), centreY: mean(y), weightSum: x.length };
  let weightSum = 0;
  let sumX = 0;
  let sumY = 0;
  const firstX = x[0] as number;
  const firstY = y[0] as number;
  for (let i = 0; i < x.length; i++) {
    const weight = weights[i] as number;
    if (!(weight > 0 && weight < Infinity)) throw new RangeError(`lineFit: expected a finite weight above zero, found ${weight}`);
    weightSum += weight;
    sumX += weight * ((x[i] as number) - firstX);
    sumY += weight * ((y[i] as number) - firstY);
  }
  return { centreX: firstX + sumX / weightSum, centreY: firstY + sumY / weightSum, weightSum };
}

/** A polynomial Σ coefficients[k] xᵏ with its doubt. */
export interface Polynomial {
  /** ascending powers of x */
  readonly coefficients: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  /** NaN when there are no degrees of freedom */
  readonly residualSd: number;
  readonly degreesOfFreedom: number;
  readonly rank: number;
}

/**
 * Polynomial by least squares: QR in the shifted and scaled variable, carried back to powers of x.
 *
 *   u = (x − x̄) / s_x,   y = Σ cₖ uᵏ  →  y = Σ bₖ xᵏ
 *
 * Coefficient k in unit of y per (unit of x)ᵏ. Powers the data cannot tell apart give NaN, with the rank saying so.
 *
 * @param x      at least degree + 1 values
 * @param y      as many
 * @param degree ≥ 0, whole
 * @returns      { coefficients, covariance, residualSd, degreesOfFreedom, rank }
 * @throws       RangeError if the lengths differ, there are too few points, or the degree is not a whole number ≥ 0
 * @source       Draper & Smith, Applied Regression Analysis, on centred and scaled powers (from memory)
 * @checked      tests/numerics/lineFit.test.ts
 */
export function polynomialFit(x: ArrayLike<number>, y: ArrayLike<number>, degree: number): Polynomial {
  if (!Number.isInteger(degree) || degree < 0) throw new RangeError(`polynomialFit: expected a whole degree of at least 0, found ${degree}`);
  requirePairs("polynomialFit", x, y, degree + 1);
  const centre = mean(x);
  const spread = standardDeviation(x);
  const scale = spread > 0 ? spread : 1;
  const rows = Array.from(x, (value) => powers((value - centre) / scale, degree));
  const { solution, covarianceFactor, residuals, rank } = leastSquares(rows, y);
  let squares = 0;
  for (const residual of residuals) squares += residual * residual;
  const degreesOfFreedom = x.length - degree - 1;
  const variance = degreesOfFreedom > 0 ? squares / degreesOfFreedom : Number.NaN;
  const back = expansion(degree, centre, scale);
  const half = back.map((row) => covarianceFactor.map((_, j) => row.reduce((total, value, k) => total + value * ((covarianceFactor[k] as number[])[j] as number), 0)));
  return {
    coefficients: back.map((row) => row.reduce((total, value, k) => total + value * (solution[k] as number), 0)),
    covariance: half.map((row) => back.map((other) => variance * row.reduce((total, value, k) => total + value * (other[k] as number), 0))),
    residualSd: Math.sqrt(variance),
    degreesOfFreedom,
    rank,
  };
}

function powers(u: number, degree: number): number[] {
  const row = [1];
  for (let k = 1; k <= degree; k++) row.push((row[k - 1] as number) * u);
  return row;
}

/** Matrix T with b = T c, from ((x − m)/s)ᵏ = Σⱼ C(k, j) xʲ (−m)ᵏ⁻ʲ / sᵏ. */
function expansion(degree: number, centre: number, scale: number): number[][] {
  const back = Array.from({ length: degree + 1 }, () => new Array<number>(degree + 1).fill(0));
  for (let k = 0; k <= degree; k++) {
    let binomial = 1;
    for (let j = k; j >= 0; j--) {
      (back[j] as number[])[k] = (binomial * (-centre) ** (k - j)) / scale ** k;
      binomial = (binomial * j) / (k - j + 1);
    }
  }
  return back;
}

// robustLine weighs every pair; beyond this it would fill the memory.
const robustLineLimit = 2000;

/**
 * Straight line that a minority of wild points cannot move (Theil–Sen): a cross-check beside `lineFit`, not a replacement.
 *
 *   slope = median of (yⱼ − yᵢ)/(xⱼ − xᵢ) over all pairs        intercept = median of (y − slope x)
 *
 * Slope in unit of y per unit of x. Stands up to 29 % of outliers. Gives no uncertainty.
 *
 * @param x at least 2 and at most 2000 values, not all equal
 * @param y as many
 * @returns { intercept, slope }
 * @throws  RangeError if the lengths differ, the number of points is outside that range, or all x are equal
 * @source  Sen, J. Am. Stat. Assoc. 63 (1968) 1379 (from memory)
 * @checked tests/numerics/lineFit.test.ts
 */
export function robustLine(x: ArrayLike<number>, y: ArrayLike<number>): { readonly intercept: number; readonly slope: number } {
  requirePairs("robustLine", x, y, 2);
  if (x.length > robustLineLimit) throw new RangeError(`robustLine: expected at most ${robustLineLimit} points, found ${x.length}`);
  const abscissas = Array.from(x);
  if (abscissas.every((value) => value === abscissas[0])) throw new RangeError("robustLine: expected differing x, found all equal");
  // Of an even number of pairs ml-regression takes the lower middle slope; upside down that is the upper one.
  const lower = new TheilSenRegression(abscissas, Array.from(y)).slope;
  const upper = -new TheilSenRegression(abscissas, Array.from(y, (value) => -value)).slope;
  const slope = 0.5 * (lower + upper);
  return { intercept: median(abscissas.map((value, i) => (y[i] as number) - slope * value)), slope };
}

function requirePairs(who: string, x: ArrayLike<number>, y: ArrayLike<number>, least: number): void {
  if (x.length !== y.length) throw new RangeError(`${who}: expected x and y of one length, found ${x.length} and ${y.length}`);
  if (x.length < least) throw new RangeError(`${who}: expected at least ${least} points, found ${x.length}`);
}
