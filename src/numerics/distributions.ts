import { betaTerm, incompleteBeta, incompleteGamma, poissonTerm, type Tails } from "./specialFunctions.ts";

/**
 * Cumulative standard normal distribution.
 *
 *   Φ(z) = ½ erfc(−z/√2) = ½ Q(½, z²/2) for z < 0
 *
 * Dimensionless; relative error near 1e-14 in both tails' own terms.
 *
 * @param z deviation in standard deviations; ±Infinity allowed
 * @returns probability of a value ≤ z; NaN for NaN
 * @source  definition through the incomplete gamma function
 * @checked tests/numerics/distributions.test.ts
 */
export function normalCdf(z: number): number {
  if (Number.isNaN(z)) return Number.NaN;
  const tail = 0.5 * incompleteGamma(0.5, 0.5 * z * z).upper;
  return z < 0 ? tail : 1 - tail;
}

/**
 * Quantile of the standard normal distribution: the z with Φ(z) = p.
 *
 * Dimensionless. z² is the quantile of chi-square with one degree of freedom at |1 − 2p|.
 *
 * @param probability 0 … 1
 * @returns           z; ±Infinity at the ends
 * @throws            RangeError if the probability is outside 0 … 1
 * @source            definition
 * @checked           tests/numerics/distributions.test.ts
 */
export function normalQuantile(probability: number): number {
  return studentTQuantile(probability, Infinity);
}

/**
 * Cumulative Student t distribution.
 *
 *   P(T ≤ −t) = ½ I_x(ν/2, ½),   x = ν/(ν + t²)
 *
 * Dimensionless. Any ν > 0, also broken numbers as Welch–Satterthwaite gives them; ν = Infinity is the normal distribution.
 *
 * @param t                value; ±Infinity allowed
 * @param degreesOfFreedom ν > 0
 * @returns                probability of a value ≤ t; NaN for NaN
 * @throws                 RangeError if ν is not above zero
 * @source                 Abramowitz & Stegun 26.7.1 (from memory)
 * @checked                tests/numerics/distributions.test.ts
 */
export function studentTCdf(t: number, degreesOfFreedom: number): number {
  requireDegrees("studentTCdf", degreesOfFreedom);
  if (degreesOfFreedom === Infinity || Number.isNaN(t)) return normalCdf(t);
  const tail = 0.5 * fTails(t * t, 1, degreesOfFreedom).upper;
  return t < 0 ? tail : 1 - tail;
}

/**
 * Quantile of Student's t: the t with P(T ≤ t) = p.
 *
 * Dimensionless. t² is the F(1, ν) quantile at |1 − 2p|. Two-sided 95 %: p = 0.975.
 *
 * @param probability      0 … 1
 * @param degreesOfFreedom ν > 0, broken numbers and Infinity allowed
 * @returns                t; ±Infinity at the ends
 * @throws                 RangeError if the probability is outside 0 … 1 or ν is not above zero
 * @source                 definition
 * @checked                tests/numerics/distributions.test.ts
 */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  requireProbability("studentTQuantile", probability);
  requireDegrees("studentTQuantile", degreesOfFreedom);
  if (probability === 0.5) return 0;
  // 2·min(p, 1−p) and |1−2p| are exact in binary arithmetic for the tail p was given in
  const tails = { upper: 2 * Math.min(probability, 1 - probability), lower: Math.abs(1 - 2 * probability) };
  const t = Math.sqrt(fQuantileOfTails(tails, 1, degreesOfFreedom));
  return probability < 0.5 ? -t : t;
}

/**
 * Cumulative F distribution.
 *
 *   P(F ≤ f) = I_x(d₁/2, d₂/2),   x = d₁f/(d₁f + d₂)
 *
 * Dimensionless. Infinity for a degree of freedom gives the chi-square limit.
 *
 * @param f  value ≥ 0
 * @param d1 degrees of freedom of the numerator, > 0
 * @param d2 degrees of freedom of the denominator, > 0
 * @returns  probability of a value ≤ f
 * @throws   RangeError if f is below zero or a degree of freedom is not above zero
 * @source   Abramowitz & Stegun 26.6.2 (from memory)
 * @checked  tests/numerics/distributions.test.ts
 */
export function fCdf(f: number, d1: number, d2: number): number {
  requireDegrees("fCdf", d1);
  requireDegrees("fCdf", d2);
  if (!(f >= 0)) throw new RangeError(`fCdf: expected a value of at least 0, found ${f}`);
  return fTails(f, d1, d2).lower;
}

/**
 * Quantile of the F distribution: the f with P(F ≤ f) = p.
 *
 * Dimensionless. A joint confidence region of m parameters uses m · F(p; m, ν).
 *
 * @param probability 0 … 1
 * @param d1          degrees of freedom of the numerator, > 0, Infinity allowed
 * @param d2          degrees of freedom of the denominator, > 0, Infinity allowed
 * @returns           f; 0 and Infinity at the ends
 * @throws            RangeError if the probability is outside 0 … 1 or a degree of freedom is not above zero
 * @source            definition
 * @checked           tests/numerics/distributions.test.ts
 */
export function fQuantile(probability: number, d1: number, d2: number): number {
  requireProbability("fQuantile", probability);
  requireDegrees("fQuantile", d1);
  requireDegrees("fQuantile", d2);
  return fQuantileOfTails({ lower: probability, upper: 1 - probability }, d1, d2);
}

/**
 * Cumulative chi-square distribution.
 *
 *   P(χ² ≤ x) = P(ν/2, x/2)
 *
 * Dimensionless.
 *
 * @param x                value ≥ 0
 * @param degreesOfFreedom ν > 0
 * @returns                probability of a value ≤ x
 * @throws                 RangeError if x is below zero or ν is not above zero
 * @source                 Abramowitz & Stegun 26.4.19 (from memory)
 * @checked                tests/numerics/distributions.test.ts
 */
export function chiSquareCdf(x: number, degreesOfFreedom: number): number {
  requireFiniteDegrees("chiSquareCdf", degreesOfFreedom);
  if (!(x >= 0)) throw new RangeError(`chiSquareCdf: expected a value of at least 0, found ${x}`);
  return incompleteGamma(degreesOfFreedom / 2, x / 2).lower;
}

/**
 * Quantile of the chi-square distribution: the x with P(χ² ≤ x) = p.
 *
 * Dimensionless.
 *
 * @param probability      0 … 1
 * @param degreesOfFreedom ν > 0, finite
 * @returns                x; 0 and Infinity at the ends
 * @throws                 RangeError if the probability is outside 0 … 1 or ν is not above zero and finite
 * @source                 definition
 * @checked                tests/numerics/distributions.test.ts
 */
export function chiSquareQuantile(probability: number, degreesOfFreedom: number): number {
  requireProbability("chiSquareQuantile", probability);
  requireFiniteDegrees("chiSquareQuantile", degreesOfFreedom);
  return chiSquareQuantileOfTails({ lower: probability, upper: 1 - probability }, degreesOfFreedom);
}

/**
 * Ratio of degrees of freedom from which the larger counts as Infinity: the limit is then true to about 1e-9 of the result,
 * while the incomplete beta function loses digits to rounding, and beyond 1e16 all of them.
 */
const beyond = 1e9;

function fTails(f: number, first: number, second: number): Tails {
  const [d1, d2] = limits(first, second);
  if (f === Infinity) return { lower: 1, upper: 0 };
  if (d1 === Infinity && d2 === Infinity) return f < 1 ? { lower: 0, upper: 1 } : { lower: 1, upper: 0 };
  if (d2 === Infinity) return incompleteGamma(d1 / 2, (d1 * f) / 2);
  if (d1 === Infinity) {
    const turned = incompleteGamma(d2 / 2, d2 / f / 2);
    return { lower: turned.upper, upper: turned.lower };
  }
  const scaled = (d1 / d2) * f;
  return incompleteBeta(d1 / 2, d2 / 2, scaled === Infinity ? 1 : scaled / (1 + scaled), 1 / (1 + scaled));
}

function limits(d1: number, d2: number): readonly [number, number] {
  return [d1 > beyond * d2 ? Infinity : d1, d2 > beyond * d1 ? Infinity : d2];
}

function fQuantileOfTails(tails: Tails, first: number, second: number): number {
  const [d1, d2] = limits(first, second);
  if (d1 === Infinity && d2 === Infinity) return 1;
  if (d2 === Infinity) return chiSquareQuantileOfTails(tails, d1) / d1;
  if (d1 === Infinity) return d2 / chiSquareQuantileOfTails({ lower: tails.upper, upper: tails.lower }, d2);
  const slope = (f: number): number => {
    const scaled = (d1 / d2) * f;
    return betaTerm(d1 / 2, d2 / 2, scaled / (1 + scaled), 1 / (1 + scaled));
  };
  return solvePositive(tails, (f) => fTails(f, d1, d2), slope, 1);
}

function chiSquareQuantileOfTails(tails: Tails, dof: number): number {
  // x·density = (ν/2)·term, since the term divides by Γ(ν/2 + 1)
  return solvePositive(tails, (x) => incompleteGamma(dof / 2, x / 2), (x) => (dof / 2) * poissonTerm(dof / 2, x / 2), dof);
}

/**
 * The x > 0 where a distribution has the given tails: Newton's method on ln(smaller tail) against ln x, kept inside a bracket.
 * `slope` is x·density(x), the derivative of the lower tail by ln x.
 */
function solvePositive(wanted: Tails, tailsAt: (x: number) => Tails, slope: (x: number) => number, start: number): number {
  if (wanted.lower <= 0) return 0;
  if (wanted.upper <= 0) return Infinity;
  const useLower = wanted.lower <= wanted.upper;
  const target = Math.log(useLower ? wanted.lower : wanted.upper);
  let below = -745; // ln of the smallest and largest numbers there are
  let above = 709;
  let u = Math.log(start);
  for (let step = 0; step < 300; step++) {
    const x = Math.exp(u);
    const tails = tailsAt(x);
    const tail = useLower ? tails.lower : tails.upper;
    const difference = Math.log(tail) - target;
    if (difference === 0) return x;
    if (difference < 0 === useLower) below = u;
    else above = u;
    const newton = u - difference / (((useLower ? 1 : -1) * slope(x)) / tail);
    const next = newton > below && newton < above ? newton : 0.5 * (below + above);
    if (Math.abs(next - u) <= 2 ** -52 * Math.max(1, Math.abs(u)) || next === below || next === above) return Math.exp(next);
    u = next;
  }
  return Math.exp(u);
}

function requireProbability(who: string, probability: number): void {
  if (!(probability >= 0 && probability <= 1)) throw new RangeError(`${who}: expected a probability from 0 to 1, found ${probability}`);
}

function requireDegrees(who: string, dof: number): void {
  if (!(dof > 0)) throw new RangeError(`${who}: expected degrees of freedom above zero, found ${dof}`);
}

function requireFiniteDegrees(who: string, dof: number): void {
  if (!(dof > 0 && dof < Infinity)) throw new RangeError(`${who}: expected finite degrees of freedom above zero, found ${dof}`);
}
