// Godfrey's coefficients for Lanczos' approximation, g = 607/128, n = 15.
const lanczosG = 607 / 128;
const lanczos = [
  0.99999999999999709182, 57.156235665862923517, -59.597960355475491248, 14.136097974741747174, -0.49191381609762019978,
  0.33994649984811888699e-4, 0.46523628927048575665e-4, -0.98374475304879564677e-4, 0.15808870322491248884e-3,
  -0.21026444172410488319e-3, 0.2174396181152126432e-3, -0.16431810653676389022e-3, 0.84418223983852743293e-4,
  -0.2619083840158140867e-4, 0.36899182659531622704e-5,
];
const halfLogTwoPi = 0.91893853320467274178;
const tiny = 1e-300;
const epsilon = 2 ** -53;
const mostTerms = 1_000_000;

/**
 * Natural logarithm of the gamma function for positive arguments.
 *
 *   ln Γ(x),   Γ(x) = ∫₀^∞ t^{x−1} e^{−t} dt
 *
 * Dimensionless; relative error of Γ near 1e-15 for moderate x.
 *
 * @param x > 0
 * @returns ln Γ(x)
 * @throws  RangeError if x is not above zero
 * @source  Lanczos, SIAM J. Numer. Anal. B 1 (1964) 86; coefficients of Godfrey (2001) (from memory)
 * @checked tests/numerics/distributions.test.ts
 */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`logGamma: expected a number above zero, found ${x}`);
  if (x > 20) return (x - 0.5) * Math.log(x) - x + halfLogTwoPi + stirlingRest(x);
  if (x < 0.5) return logGamma(x + 1) - Math.log(x); // x − 1 would lose the digits of a small x
  let series = lanczos[0] as number;
  for (let k = 1; k < lanczos.length; k++) series += (lanczos[k] as number) / (x - 1 + k);
  const shifted = x + lanczosG - 0.5;
  return (x - 0.5) * Math.log(shifted) - shifted + halfLogTwoPi + Math.log(series);
}

/** ln Γ(x+1) − [ (x+½) ln x − x + ½ ln 2π ]: what Stirling's formula leaves out. */
function stirlingRest(x: number): number {
  if (x <= 20) return logGamma(x) + Math.log(x) - ((x + 0.5) * Math.log(x) - x + halfLogTwoPi);
  const square = x * x;
  return (1 / 12 - (1 / 360 - (1 / 1260 - (1 / 1680 - (1 / 1188 - 691 / 360360 / square) / square) / square) / square) / square) / x;
}

/** x ln(x/m) + m − x without the cancellation near x = m (Loader's deviance). */
function deviance(x: number, m: number): number {
  if (Math.abs(x - m) >= 0.1 * (x + m)) return x * Math.log(x / m) + m - x;
  const v = (x - m) / (x + m);
  let total = (x - m) * v;
  let term = 2 * x * v;
  for (let j = 1; j < 1000; j++) {
    term *= v * v;
    const next = total + term / (2 * j + 1);
    if (next === total) return next;
    total = next;
  }
  return total;
}

/**
 * A term of the Poisson distribution, kept accurate for large a.
 *
 *   x^a e^{−x} / Γ(a + 1)
 *
 * Dimensionless; a need not be whole.
 *
 * @param a > 0
 * @param x ≥ 0
 * @returns the term
 * @source  Loader, Fast and accurate computation of binomial probabilities (2000) (from memory)
 * @checked tests/numerics/distributions.test.ts
 */
export function poissonTerm(a: number, x: number): number {
  if (x === 0 || x === Infinity) return 0;
  if (a < 1) return Math.exp(a * Math.log(x) - x - logGamma(a + 1));
  return Math.exp(-stirlingRest(a) - deviance(a, x)) / Math.sqrt(2 * Math.PI * a);
}

/**
 * The factor before the incomplete beta function, kept accurate for large a and b.
 *
 *   x^a (1 − x)^b / B(a, b)
 *
 * Dimensionless; it is also ∂I_x(a, b)/∂ ln(x/(1 − x)).
 *
 * @param a > 0
 * @param b > 0
 * @param x 0 … 1
 * @param y 1 − x, given apart so that neither loses digits
 * @returns the factor
 * @source  Loader, Fast and accurate computation of binomial probabilities (2000) (from memory)
 * @checked tests/numerics/distributions.test.ts
 */
export function betaTerm(a: number, b: number, x: number, y: number): number {
  if (x === 0 || y === 0) return 0;
  const n = a + b;
  if (a < 1 || b < 1) return Math.exp(a * logOf(x, y) + b * logOf(y, x) - logBeta(a, b));
  const exponent = stirlingRest(n) - stirlingRest(a) - stirlingRest(b) - deviance(a, n * x) - deviance(b, n * y);
  return Math.exp(exponent) * Math.sqrt((a * b) / (2 * Math.PI * n));
}

/** ln x from x and 1 − x, whichever tells it better. */
function logOf(x: number, complement: number): number {
  return x > 0.5 ? Math.log1p(-complement) : Math.log(x);
}

function logBeta(a: number, b: number): number {
  const small = Math.min(a, b);
  const large = Math.max(a, b);
  if (large <= 20) return logGamma(a) + logGamma(b) - logGamma(a + b);
  // ln Γ(large) − ln Γ(large+small), the big parts cancelled on paper
  const sum = large + small;
  const difference = (large - 0.5) * -Math.log1p(small / large) - small * Math.log(sum) + small + stirlingRest(large) - stirlingRest(sum);
  return logGamma(small) + difference;
}

/** Both tails, each with its own relative accuracy; they sum to one. */
export interface Tails {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Regularised incomplete beta function, both tails.
 *
 *   I_x(a, b) = ∫₀ˣ t^{a−1} (1−t)^{b−1} dt / B(a, b)        upper = 1 − I_x(a, b)
 *
 * Dimensionless; relative error of the smaller tail near 1e-14.
 *
 * @param a > 0
 * @param b > 0
 * @param x 0 … 1
 * @param y 1 − x, given apart so that neither loses digits
 * @returns { lower: I_x, upper: 1 − I_x }
 * @throws  RangeError if a or b is not above zero or x is outside 0 … 1
 * @source  continued fraction 8.17.22 of the NIST Digital Library of Mathematical Functions, by Lentz's method (from memory)
 * @checked tests/numerics/distributions.test.ts
 */
export function incompleteBeta(a: number, b: number, x: number, y: number = 1 - x): Tails {
  if (!(a > 0 && b > 0)) throw new RangeError(`incompleteBeta: expected parameters above zero, found ${a} and ${b}`);
  if (!(x >= 0 && y >= 0)) throw new RangeError(`incompleteBeta: expected x from 0 to 1, found ${x}`);
  if (x * (a + b + 2) > a + 1) {
    const turned = incompleteBetaFraction(b, a, y, x);
    return { lower: 1 - turned, upper: turned };
  }
  const direct = incompleteBetaFraction(a, b, x, y);
  return { lower: direct, upper: 1 - direct };
}

function incompleteBetaFraction(a: number, b: number, x: number, y: number): number {
  const factor = betaTerm(a, b, x, y) / a;
  if (factor === 0) return 0;
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let result = d;
  for (let m = 1; m < mostTerms; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    result *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const change = d * c;
    result *= change;
    if (Math.abs(change - 1) < 4 * epsilon) return factor * result;
  }
  throw new RangeError(`incompleteBeta: no convergence for a = ${a}, b = ${b}, x = ${x}`);
}

function away(value: number): number {
  return Math.abs(value) < tiny ? tiny : value;
}

/**
 * Regularised incomplete gamma function, both tails.
 *
 *   P(a, x) = ∫₀ˣ t^{a−1} e^{−t} dt / Γ(a)        Q = 1 − P
 *
 * Dimensionless; relative error of the smaller tail near 1e-14.
 *
 * @param a > 0
 * @param x ≥ 0, Infinity allowed
 * @returns { lower: P, upper: Q }
 * @throws  RangeError if a is not above zero or x is below zero
 * @source  series 8.7.1 and continued fraction 8.9.2 of the NIST Digital Library of Mathematical Functions (from memory)
 * @checked tests/numerics/distributions.test.ts
 */
export function incompleteGamma(a: number, x: number): Tails {
  if (!(a > 0)) throw new RangeError(`incompleteGamma: expected a parameter above zero, found ${a}`);
  if (!(x >= 0)) throw new RangeError(`incompleteGamma: expected x of at least 0, found ${x}`);
  const factor = poissonTerm(a, x);
  if (x < a + 1) {
    let term = 1;
    let total = 1;
    for (let n = 1; n < mostTerms && term > total * epsilon; n++) {
      term *= x / (a + n);
      total += term;
    }
    const lower = factor * total;
    return { lower, upper: 1 - lower };
  }
  if (factor === 0) return { lower: 1, upper: 0 };
  let b = x + 1 - a;
  let c = 1 / tiny;
  let d = 1 / away(b);
  let fraction = d;
  for (let i = 1; i < mostTerms; i++) {
    const an = -i * (i - a);
    b += 2;
    d = 1 / away(an * d + b);
    c = away(b + an / c);
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < 4 * epsilon) break;
  }
  const upper = factor * a * fraction;
  return { lower: 1 - upper, upper };
}
