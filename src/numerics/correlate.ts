import { inverseTransform, paddedTransform, powerOfTwo, type Interleaved } from "./spectrum.ts";
import { effectiveSampleSize, lag1Autocorrelation, mean } from "./statistics.ts";

/** How much later one record shows what another shows. */
export interface Lag {
  /** > 0: b shows it later than a; NaN when the records have nothing to compare */
  readonly lagS: number;
  /** NaN when it cannot be told: the correlation still rises at the end of the range, or nothing in the record moves */
  readonly standardUncertaintyS: number;
  /** correlation coefficient at the best whole-sample lag, −1 … 1 */
  readonly peak: number;
}

/**
 * Delay between two records of the same thing, where their correlation coefficient is highest.
 *
 *   r(k) = corr( aᵢ, bᵢ₊ₖ ) over the samples both have; between samples: cos ω = (r₊ + r₋)/2r₀, tan ωδ = (r₊ − r₋)/(2 r₀ sin ω)
 *   u² = [ s² / (α² Σ a'²) · (1 / share of independent samples) ] + (cosine − parabola)²,   b ≈ α a + β + noise of sd s
 *
 * [s]. Both records at one rate with their first samples at nominally the same time. NaN samples are left out. Lags with
 * fewer common samples than half the shorter record are not looked at. A slow drift common to nothing lowers the peak: take
 * it off first. Holds for smooth records; the second term of u grows where the records are rough at the sampling rate.
 *
 * @param a           reference record
 * @param b           the other record
 * @param rateHz      sampling rate of both [Hz]
 * @param maximumLagS largest lag to look at, either way [s]
 * @returns           { lagS, standardUncertaintyS, peak }
 * @throws            RangeError if a record is empty, or rate or range is not above zero
 * @source            least-squares time delay; cosine interpolation of Céspedes et al., Ultrason. Imaging 17 (1995) 142 (from memory)
 * @checked           tests/numerics/correlate.test.ts
 */
export function lagByCorrelation(a: ArrayLike<number>, b: ArrayLike<number>, rateHz: number, maximumLagS: number): Lag {
  if (a.length === 0 || b.length === 0) throw new RangeError("lagByCorrelation: expected two records, found an empty one");
  if (!(rateHz > 0 && maximumLagS > 0)) throw new RangeError(`lagByCorrelation: expected a rate and a range above zero, found ${rateHz} Hz and ${maximumLagS} s`);
  const reach = Math.min(Math.floor(maximumLagS * rateHz + 1e-9), a.length + b.length);
  const best = highest(coefficients(a, b, reach));
  if (best === null) return { lagS: Number.NaN, standardUncertaintyS: Number.NaN, peak: Number.NaN };
  const lag = best - reach;
  const middle = compare(a, b, lag);
  const before = compare(a, b, lag - 1).r;
  const after = compare(a, b, lag + 1).r;
  const peak = middle.r;
  const inside = before < peak && after <= peak && peak > 0;
  if (!inside) return { lagS: lag / rateHz, standardUncertaintyS: Number.NaN, peak };
  const parabola = (0.5 * (before - after)) / (before - 2 * peak + after);
  const omega = Math.acos(Math.max(-1, (before + after) / (2 * peak)));
  const cosine = Math.atan((after - before) / (2 * peak * Math.sin(omega))) / omega;
  const shift = Number.isFinite(cosine) ? cosine : parabola; // a flat top has no cosine: sin ω = 0
  const statistical = delayUncertainty(a, b, lag, middle);
  return { lagS: (lag + shift) / rateHz, standardUncertaintyS: Math.hypot(statistical, shift - parabola) / rateHz, peak };
}

interface Comparison {
  readonly r: number;
  readonly meanA: number;
  readonly meanB: number;
  /** b ≈ slope a + const */
  readonly slope: number;
}

/** Correlation at one lag, directly from the samples both have. */
function compare(a: ArrayLike<number>, b: ArrayLike<number>, lag: number): Comparison {
  const from = Math.max(0, -lag);
  const to = Math.min(a.length, b.length - lag);
  let count = 0;
  let sumA = 0;
  let sumB = 0;
  for (let i = from; i < to; i++) {
    const both = (a[i] as number) + (b[i + lag] as number);
    if (Number.isNaN(both)) continue;
    count++;
    sumA += a[i] as number;
    sumB += b[i + lag] as number;
  }
  const meanA = sumA / count;
  const meanB = sumB / count;
  let aa = 0;
  let bb = 0;
  let ab = 0;
  for (let i = from; i < to; i++) {
    const x = (a[i] as number) - meanA;
    const y = (b[i + lag] as number) - meanB;
    if (Number.isNaN(x + y)) continue;
    aa += x * x;
    bb += y * y;
    ab += x * y;
  }
  return { r: ab / Math.sqrt(aa * bb), meanA, meanB, slope: ab / aa };
}

/** Standard uncertainty of the delay in samples, from what b shows beyond a, weighed by how fast a moves. */
function delayUncertainty(a: ArrayLike<number>, b: ArrayLike<number>, lag: number, { meanA, meanB, slope }: Comparison): number {
  const from = Math.max(1, -lag);
  const to = Math.min(a.length - 1, b.length - lag);
  let squares = 0;
  let moves = 0;
  const products: number[] = [];
  for (let i = from; i < to; i++) {
    const residual = (b[i + lag] as number) - meanB - slope * ((a[i] as number) - meanA);
    const speed = 0.5 * slope * ((a[i + 1] as number) - (a[i - 1] as number));
    if (Number.isNaN(residual + speed)) continue;
    squares += residual * residual;
    moves += speed * speed;
    products.push(residual * speed);
  }
  const count = products.length;
  if (count <= 3 || moves === 0) return Number.NaN;
  const lag1 = lag1Autocorrelation(products);
  const share = Number.isNaN(lag1) ? 1 : Math.min(1, effectiveSampleSize(count, lag1) / count);
  return Math.sqrt(squares / (count - 3) / moves / share);
}

/** r(k) for k = −reach … reach by fast convolution of values, squares and presence; NaN where too few samples meet. */
function coefficients(a: ArrayLike<number>, b: ArrayLike<number>, reach: number): Float64Array {
  const left = parts(a);
  const right = parts(b);
  const size = powerOfTwo(a.length + b.length);
  const [ma, va, sa] = [left.there, left.values, left.squares].map((part) => paddedTransform(part, size)) as [Interleaved, Interleaved, Interleaved];
  const [mb, vb, sb] = [right.there, right.values, right.squares].map((part) => paddedTransform(part, size)) as [Interleaved, Interleaved, Interleaved];
  const counts = crossSums(ma, mb);
  const sumA = crossSums(va, mb);
  const sumB = crossSums(ma, vb);
  const sumAA = crossSums(sa, mb);
  const sumBB = crossSums(ma, sb);
  const sumAB = crossSums(va, vb);
  const least = Math.max(4, 0.5 * Math.min(left.count, right.count) - 0.5);
  const result = new Float64Array(2 * reach + 1).fill(Number.NaN);
  for (let k = -reach; k <= reach; k++) {
    if (k <= -a.length || k >= b.length) continue;
    const at = 2 * ((k + size) % size);
    const n = Math.round(counts[at] as number);
    if (n < least) continue;
    const aa = (sumAA[at] as number) - (sumA[at] as number) ** 2 / n;
    const bb = (sumBB[at] as number) - (sumB[at] as number) ** 2 / n;
    // what is left of a constant stretch is rounding
    if (aa > 1e-12 * left.total && bb > 1e-12 * right.total) result[k + reach] = ((sumAB[at] as number) - ((sumA[at] as number) * (sumB[at] as number)) / n) / Math.sqrt(aa * bb);
  }
  return result;
}

function parts(samples: ArrayLike<number>): { there: Float64Array; values: Float64Array; squares: Float64Array; count: number; total: number } {
  const present = Array.from(samples).filter((value) => !Number.isNaN(value));
  const level = present.length === 0 ? 0 : mean(present);
  const there = Float64Array.from(samples, (value) => (Number.isNaN(value) ? 0 : 1));
  const values = Float64Array.from(samples, (value) => (Number.isNaN(value) ? 0 : value - level));
  const squares = values.map((value) => value * value);
  return { there, values, squares, count: present.length, total: squares.reduce((sum, value) => sum + value, 0) };
}

/** Σᵢ xᵢ yᵢ₊ₖ at 2·k of the result, k counted round the ring, from two transforms. */
function crossSums(x: Interleaved, y: Interleaved): Interleaved {
  const product: Interleaved = new Array<number>(x.length).fill(0);
  for (let k = 0; k < x.length; k += 2) {
    const xr = x[k] as number;
    const xi = x[k + 1] as number;
    const yr = y[k] as number;
    const yi = y[k + 1] as number;
    product[k] = xr * yr + xi * yi;
    product[k + 1] = xr * yi - xi * yr;
  }
  return inverseTransform(product);
}

function highest(values: Float64Array): number | null {
  let best: number | null = null;
  for (let k = 0; k < values.length; k++) if (!Number.isNaN(values[k]) && (best === null || (values[k] as number) > (values[best] as number))) best = k;
  return best;
}
