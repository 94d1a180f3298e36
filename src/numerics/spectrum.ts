import FFT from "fft.js";
import { mean } from "./statistics.ts";

/** Real and imaginary parts side by side: re₀, im₀, re₁, im₁ … */
export type Interleaved = number[];

// Plans are tables of cosines by size; building one costs more than using it.
const plans = new Map<number, FFT>();

function planOf(size: number): FFT {
  let plan = plans.get(size);
  if (plan === undefined) {
    plan = new FFT(size);
    plans.set(size, plan);
  }
  return plan;
}

/**
 * Smallest power of two that is ≥ size and ≥ 2.
 *
 *   2^⌈log₂ size⌉
 *
 * @param size number of samples
 * @returns    a length the fast transform takes
 * @source     definition
 * @checked    tests/numerics/spectrum.test.ts
 */
export function powerOfTwo(size: number): number {
  let power = 2;
  while (power < size) power *= 2;
  return power;
}

/**
 * Transform of a real signal continued by zeros.
 *
 *   X_k = Σ_i x_i e^{−2πi k i / size},   k = 0 … size − 1
 *
 * Unit of the samples.
 *
 * @param samples at most `size`
 * @param size    a power of two, ≥ 2
 * @returns       all `size` complex values, interleaved
 * @source        definition, as fft.js computes it
 * @checked       tests/numerics/spectrum.test.ts
 */
export function paddedTransform(samples: ArrayLike<number>, size: number): Interleaved {
  const input = new Array<number>(size).fill(0);
  for (let i = 0; i < samples.length; i++) input[i] = samples[i] as number;
  const output = new Array<number>(2 * size).fill(0);
  const plan = planOf(size);
  plan.realTransform(output, input);
  plan.completeSpectrum(output);
  return output;
}

/**
 * Inverse transform.
 *
 *   x_i = Σ_k X_k e^{2πi k i / size} / size
 *
 * Unit of the spectrum.
 *
 * @param spectrum complex values, interleaved; as many as a power of two
 * @returns        as many complex values, interleaved
 * @source         definition, as fft.js computes it
 * @checked        tests/numerics/spectrum.test.ts
 */
export function inverseTransform(spectrum: Interleaved): Interleaved {
  const output = new Array<number>(spectrum.length).fill(0);
  planOf(spectrum.length / 2).inverseTransform(output, spectrum);
  return output;
}

/**
 * Discrete Fourier transform of a real signal of any length.
 *
 *   X_k = Σ_i x_i e^{−2πi k i / n},   k = 0 … n − 1
 *
 * Unit of the samples. Powers of two directly, other lengths as a chirp convolution (Bluestein). A NaN or Infinity makes every value NaN.
 *
 * @param samples at least one
 * @returns       n complex values, interleaved
 * @throws        RangeError if there is no sample
 * @source        Bluestein, IEEE Trans. Audio Electroacoust. 18 (1970) 451 (from memory)
 * @checked       tests/numerics/spectrum.test.ts
 */
export function discreteFourier(samples: ArrayLike<number>): Interleaved {
  const n = samples.length;
  if (n === 0) throw new RangeError("discreteFourier: expected at least one sample, found none");
  // Left alone, a missing sample would spare the sums it happens to be multiplied by zero in.
  for (let i = 0; i < n; i++) if (!Number.isFinite(samples[i])) return new Array<number>(2 * n).fill(Number.NaN);
  if (n === 1) return [samples[0] as number, 0];
  if (powerOfTwo(n) === n) return paddedTransform(samples, n);
  const size = powerOfTwo(2 * n - 1);
  const plan = planOf(size);
  const { chirp, kernel } = chirpOf(n, size);
  const input = new Array<number>(2 * size).fill(0);
  for (let i = 0; i < n; i++) {
    const value = samples[i] as number;
    input[2 * i] = value * (chirp[2 * i] as number);
    input[2 * i + 1] = value * (chirp[2 * i + 1] as number);
  }
  const output = new Array<number>(2 * size).fill(0);
  plan.transform(output, input);
  for (let k = 0; k < 2 * size; k += 2) multiply(output, k, kernel[k] as number, kernel[k + 1] as number);
  plan.inverseTransform(input, output);
  for (let k = 0; k < 2 * n; k += 2) multiply(input, k, chirp[k] as number, chirp[k + 1] as number);
  input.length = 2 * n;
  return input;
}

const chirps = new Map<number, { chirp: Interleaved; kernel: Interleaved }>();

/** e^{−πi k²/n}, and the transform of its conjugate laid round a ring of `size`. */
function chirpOf(n: number, size: number): { chirp: Interleaved; kernel: Interleaved } {
  const known = chirps.get(n);
  if (known !== undefined) return known;
  const chirp: Interleaved = new Array<number>(2 * n).fill(0);
  const ring = new Array<number>(2 * size).fill(0);
  for (let k = 0; k < n; k++) {
    const angle = (Math.PI * ((k * k) % (2 * n))) / n; // k² taken modulo 2n keeps the angle small and exact
    chirp[2 * k] = Math.cos(angle);
    chirp[2 * k + 1] = -Math.sin(angle);
    for (const at of k === 0 ? [0] : [k, size - k]) {
      ring[2 * at] = Math.cos(angle);
      ring[2 * at + 1] = Math.sin(angle);
    }
  }
  const kernel = new Array<number>(2 * size).fill(0);
  planOf(size).transform(kernel, ring);
  chirps.clear(); // one length at a time is what Welch segments need; more would only hold memory
  chirps.set(n, { chirp, kernel });
  return { chirp, kernel };
}

function multiply(values: Interleaved, at: number, real: number, imaginary: number): void {
  const x = values[at] as number;
  const y = values[at + 1] as number;
  values[at] = x * real - y * imaginary;
  values[at + 1] = x * imaginary + y * real;
}

/** One-sided discrete Fourier transform. */
export interface Spectrum {
  readonly frequenciesHz: Float64Array;
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
}

/**
 * One-sided discrete Fourier transform of a real signal of any length.
 *
 *   X_k = Σ_i x_i e^{−2πi k i / n},   f_k = k f_s / n,   k = 0 … ⌊n/2⌋
 *
 * Unit of the samples; no window, no scaling: a sine of amplitude A on a line gives |X| = A n / 2. A NaN or Infinity makes every value NaN.
 *
 * @param samples equally spaced, at least one
 * @param rateHz  sampling rate [Hz]
 * @returns       { frequenciesHz, real, imaginary }
 * @throws        RangeError if there is no sample or the rate is not above zero
 * @source        definition
 * @checked       tests/numerics/spectrum.test.ts
 */
export function realSpectrum(samples: ArrayLike<number>, rateHz: number): Spectrum {
  requireRate(rateHz);
  const values = discreteFourier(samples);
  const lines = Math.floor(samples.length / 2) + 1;
  return {
    frequenciesHz: frequencies(samples.length, rateHz),
    real: Float64Array.from({ length: lines }, (_, k) => values[2 * k] as number),
    imaginary: Float64Array.from({ length: lines }, (_, k) => values[2 * k + 1] as number),
  };
}

/** How to average a spectrum. */
export interface WelchOptions {
  /** samples per segment, ≥ 2 */
  readonly segmentLength: number;
  /** share of a segment that the next one repeats, 0 … < 1 */
  readonly overlap?: number;
  readonly window?: "hann" | "rectangular";
  /** taken off each segment before the window */
  readonly remove?: "mean" | "nothing";
}

const defaults = { overlap: 0.5, window: "hann", remove: "mean" } as const;

/** One-sided power spectrum. */
export interface PowerSpectrum {
  readonly frequenciesHz: Float64Array;
  /** density: unit² / Hz; power: unit² */
  readonly power: Float64Array;
  readonly segments: number;
}

/**
 * One-sided power spectral density by Welch's averaged periodograms.
 *
 *   S(f_k) = 2 |Σ w_i x_i e^{−2πi k i/n}|² / (f_s Σ w²), averaged over segments; factor 1 at 0 Hz and at half the rate
 *
 * Unit² of the samples per Hz: its integral over frequency is the mean square. Periodic Hann window, half overlap and mean
 * removed per segment unless told otherwise. Left-over samples at the end are not used. A NaN or Infinity makes every value NaN.
 *
 * @param samples equally spaced, at least one segment
 * @param rateHz  sampling rate [Hz]
 * @param options { segmentLength, overlap?, window?, remove? }
 * @returns       { frequenciesHz, power, segments }
 * @throws        RangeError if the segment is shorter than 2 or longer than the signal, the overlap is not in 0 … < 1, or the rate is not above zero
 * @source        Welch, IEEE Trans. Audio Electroacoust. 15 (1967) 70 (from memory)
 * @checked       tests/numerics/spectrum.test.ts
 */
export function welchDensity(samples: ArrayLike<number>, rateHz: number, options: WelchOptions): PowerSpectrum {
  return welch(samples, rateHz, options, (window) => rateHz * window.reduce((total, w) => total + w * w, 0));
}

/**
 * One-sided power per line by Welch's averaged periodograms.
 *
 *   P(f_k) = 2 |Σ w_i x_i e^{−2πi k i/n}|² / (Σ w)², averaged over segments; factor 1 at 0 Hz and at half the rate
 *
 * Unit² of the samples: a sine of amplitude A on a line reads A²/2 there. The rest as `welchDensity`.
 *
 * @param samples equally spaced, at least one segment
 * @param rateHz  sampling rate [Hz]
 * @param options { segmentLength, overlap?, window?, remove? }
 * @returns       { frequenciesHz, power, segments }
 * @throws        RangeError as `welchDensity`
 * @source        Heinzel, Rüdiger & Schilling, Spectrum and spectral density estimation by the DFT (2002) (from memory)
 * @checked       tests/numerics/spectrum.test.ts
 */
export function welchPower(samples: ArrayLike<number>, rateHz: number, options: WelchOptions): PowerSpectrum {
  return welch(samples, rateHz, options, (window) => window.reduce((total, w) => total + w, 0) ** 2);
}

function welch(samples: ArrayLike<number>, rateHz: number, options: WelchOptions, scaleOf: (window: Float64Array) => number): PowerSpectrum {
  requireRate(rateHz);
  const { segmentLength: length, overlap, window: shape, remove } = { ...defaults, ...options };
  if (!Number.isInteger(length) || length < 2 || length > samples.length) throw new RangeError(`Welch: expected a whole segment length from 2 to ${samples.length}, found ${length}`);
  if (!(overlap >= 0 && overlap < 1)) throw new RangeError(`Welch: expected an overlap from 0 to below 1, found ${overlap}`);
  const window = Float64Array.from({ length }, (_, i) => (shape === "hann" ? 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / length) : 1));
  const scale = scaleOf(window);
  const stride = Math.max(1, length - Math.floor(overlap * length));
  const power = new Float64Array(Math.floor(length / 2) + 1);
  const segment = new Float64Array(length);
  let segments = 0;
  for (let from = 0; from + length <= samples.length; from += stride) {
    for (let i = 0; i < length; i++) segment[i] = samples[from + i] as number;
    const level = remove === "mean" ? mean(segment) : 0;
    for (let i = 0; i < length; i++) segment[i] = ((segment[i] as number) - level) * (window[i] as number);
    const values = discreteFourier(segment);
    for (let k = 0; k < power.length; k++) power[k] = (power[k] as number) + (values[2 * k] as number) ** 2 + (values[2 * k + 1] as number) ** 2;
    segments++;
  }
  for (let k = 0; k < power.length; k++) power[k] = ((power[k] as number) * (k === 0 || 2 * k === length ? 1 : 2)) / scale / segments;
  return { frequenciesHz: frequencies(length, rateHz), power, segments };
}

function frequencies(length: number, rateHz: number): Float64Array {
  return Float64Array.from({ length: Math.floor(length / 2) + 1 }, (_, k) => (k * rateHz) / length);
}

function requireRate(rateHz: number): void {
  if (!(rateHz > 0 && rateHz < Infinity)) throw new RangeError(`expected a sampling rate above zero, found ${rateHz}`);
}
