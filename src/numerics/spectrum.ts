import { discreteFourier } from "./fourier.ts";
import { mean } from "./statistics.ts";

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
 * Unit of the samples; no window, no scaling: a sine of amplitude A on a line gives |X| = A n / 2. A NaN spoils every value.
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
 * removed per segment unless told otherwise. Left-over samples at the end are not used. A NaN spoils every value.
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
