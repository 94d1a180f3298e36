import { quantileSorted, sum } from "simple-statistics";

// simple-statistics declares number[] but only reads length and indices, so every array-like fits.
const asArray = (samples: ArrayLike<number>): number[] => samples as number[];

/**
 * Arithmetic mean, by compensated summation.
 *
 *   x̄ = Σxᵢ / n
 *
 * Unit of the samples. A NaN among the samples makes the result NaN: what is missing is the caller's decision.
 *
 * @param samples at least one value
 * @returns       x̄
 * @throws        RangeError if there is no sample
 * @source        definition; summation after Neumaier, ZAMM 54 (1974) 39 (from memory), as simple-statistics does it
 * @checked       tests/numerics/statistics.test.ts
 */
export function mean(samples: ArrayLike<number>): number {
  if (samples.length === 0) throw new RangeError("mean: expected at least one sample, found none");
  return sum(asArray(samples)) / samples.length;
}

/**
 * Median: the middle value, or the mean of the two middle values.
 *
 * Unit of the samples. NaN among the samples makes it NaN.
 *
 * @param samples at least one value, any order; not changed
 * @returns       the 50 % quantile
 * @throws        RangeError if there is no sample
 * @source        definition
 * @checked       tests/numerics/statistics.test.ts
 */
export function median(samples: ArrayLike<number>): number {
  return quantile(samples, 0.5);
}

/**
 * Quantile of a sample by linear interpolation between order statistics.
 *
 *   h = (n − 1) p        Q = x₍⌊h⌋₎ + (h − ⌊h⌋) (x₍⌊h⌋₊₁₎ − x₍⌊h⌋₎)
 *
 * Unit of the samples. NaN among the samples makes it NaN.
 *
 * @param samples     at least one value, any order; not changed
 * @param probability 0 … 1
 * @returns           Q(p)
 * @throws            RangeError if there is no sample or the probability is outside 0 … 1
 * @source            Hyndman & Fan, Am. Stat. 50 (1996) 361, definition 7 (from memory)
 * @checked           tests/numerics/statistics.test.ts
 */
export function quantile(samples: ArrayLike<number>, probability: number): number {
  return quantiles(samples, [probability])[0] as number;
}

/**
 * Several quantiles of a sample, sorted once; see {@link quantile}.
 *
 * @param samples       at least one value, any order; not changed
 * @param probabilities 0 … 1 each
 * @returns             Q(p) for each p [unit of the samples]
 * @throws              RangeError if there is no sample or a probability is outside 0 … 1
 * @source              Hyndman & Fan, Am. Stat. 50 (1996) 361, definition 7 (from memory)
 * @checked             tests/numerics/statistics.test.ts
 */
export function quantiles(samples: ArrayLike<number>, probabilities: readonly number[]): number[] {
  if (samples.length === 0) throw new RangeError("quantile: expected at least one sample, found none");
  const outside = probabilities.find((probability) => !(probability >= 0 && probability <= 1));
  if (outside !== undefined) throw new RangeError(`quantile: expected a probability from 0 to 1, found ${outside}`);
  const sorted = Float64Array.from(samples).sort();
  if (Number.isNaN(sorted[sorted.length - 1])) return probabilities.map(() => Number.NaN); // a typed array sorts NaN to the end
  return probabilities.map((probability) => quantileSorted(sorted as unknown as number[], probability));
}

/**
 * Standard deviation of a sample.
 *
 *   s = √( (Σ(xᵢ − x̄)² − (Σ(xᵢ − x̄))²/n) / (n − 1) )
 *
 * Unit of the samples. The second term is zero in exact arithmetic; it takes out the rounding of x̄, so a large
 * common offset does not spoil s. Independent samples: for a correlated record s is biased low.
 *
 * @param samples at least one value
 * @returns       s; NaN for a single sample, which has no spread to tell
 * @throws        RangeError if there is no sample
 * @source        Chan, Golub & LeVeque, Am. Stat. 37 (1983) 242, corrected two-pass algorithm (from memory)
 * @checked       tests/numerics/statistics.test.ts
 */
export function standardDeviation(samples: ArrayLike<number>): number {
  const n = samples.length;
  const centre = mean(samples);
  if (n < 2) return Number.NaN;
  let squares = 0;
  let rest = 0;
  for (let i = 0; i < n; i++) {
    const deviation = (samples[i] as number) - centre;
    squares += deviation * deviation;
    rest += deviation;
  }
  return Math.sqrt(Math.max(0, squares - (rest * rest) / n) / (n - 1));
}

/**
 * Autocorrelation of successive samples.
 *
 *   r₁ = Σ (xᵢ − x̄)(xᵢ₊₁ − x̄) / Σ (xᵢ − x̄)²
 *
 * Dimensionless, −1 < r₁ < 1. Equally spaced samples. Biased towards −1/n for short records.
 *
 * @param samples at least one value
 * @returns       r₁; NaN when all samples are equal, since a constant has no correlation
 * @throws        RangeError if there is no sample
 * @source        NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.12 (from memory)
 * @checked       tests/numerics/statistics.test.ts
 */
export function lag1Autocorrelation(samples: ArrayLike<number>): number {
  const n = samples.length;
  const centre = mean(samples);
  let products = 0;
  let squares = 0;
  let before = 0;
  for (let i = 0; i < n; i++) {
    const deviation = (samples[i] as number) - centre;
    squares += deviation * deviation;
    products += before * deviation;
    before = deviation;
  }
  return squares === 0 ? Number.NaN : products / squares;
}

/**
 * How many independent samples a correlated record is worth, for the standard uncertainty of its mean s/√n_eff.
 *
 *   n_eff = n / [ 1 + 2 Σₖ₌₁ⁿ⁻¹ (1 − k/n) ρᵏ ] = n / [ (1+ρ)/(1−ρ) − 2ρ(1−ρⁿ)/(n(1−ρ)²) ]
 *
 * Exact for a first-order autoregressive process of any length. Negative ρ gives more than n.
 *
 * @param count number of samples, ≥ 1
 * @param lag1  correlation ρ of successive samples, −1 … 1
 * @returns     n_eff; NaN when ρ is NaN (a constant record)
 * @throws      RangeError if count < 1 or ρ is outside −1 … 1
 * @source      variance of the mean of an AR(1) process; Zięba, Metrol. Meas. Syst. 17 (2010) 3 (from memory)
 * @checked     tests/numerics/statistics.test.ts
 */
export function effectiveSampleSize(count: number, lag1: number): number {
  if (!(count >= 1)) throw new RangeError(`effectiveSampleSize: expected a count of at least 1, found ${count}`);
  if (Number.isNaN(lag1)) return Number.NaN;
  if (lag1 < -1 || lag1 > 1) throw new RangeError(`effectiveSampleSize: expected a correlation from -1 to 1, found ${lag1}`);
  if (lag1 === 1) return 1;
  const complement = 1 - lag1;
  if (count * complement > 10) {
    return count / ((1 + lag1) / complement - (2 * lag1 * (1 - lag1 ** count)) / (count * complement * complement));
  }
  // Near ρ = 1 the closed form is a difference of two huge numbers; the sum keeps its digits.
  let power = 1;
  let weighted = 0;
  for (let k = 1; k < count; k++) {
    power *= lag1;
    weighted += (1 - k / count) * power;
  }
  return count / (1 + 2 * weighted);
}
