import { butterworthSections, forwardBackward, type Section } from "./sections.ts";

/** Which standard's corner factor: they differ by 0.3 %. */
export type FilterStandard = "SAE J211" | "ISO 6487";

// Corner frequency of one pass by filter class. SAE rounds (5/3)/(√2−1)^(1/4) = 2.07751 to 2.0775; ISO writes 1.25 · 5/3.
const cornerFactors: Readonly<Record<FilterStandard, number>> = { "SAE J211": 2.0775, "ISO 6487": 25 / 12 };
const leastReach = 9;

/**
 * Lowest sampling rate for a channel frequency class.
 *
 *   f_s ≥ 10 · CFC
 *
 * [Hz]. Below it the bilinear transform bends the response near the corner visibly; `frequencyClassFilter` does not refuse
 * it (only what it cannot compute), so the caller decides and says so.
 *
 * @param filterClass CFC, e.g. 1000
 * @returns           [Hz]
 * @source            SAE J211-1 and ISO 6487, sampling at ten times the class at least (from memory)
 * @checked           tests/numerics/filter.test.ts
 */
export function minimumRateHz(filterClass: number): number {
  return 10 * filterClass;
}

/** Coefficients in the standards' notation: y = a0 x + a1 x₋₁ + a2 x₋₂ + b1 y₋₁ + b2 y₋₂. */
export interface FrequencyClassCoefficients {
  readonly a0: number;
  readonly a1: number;
  readonly a2: number;
  readonly b1: number;
  readonly b2: number;
  /** corner of one pass [Hz] */
  readonly cornerHz: number;
}

/**
 * Coefficients of a channel-frequency-class filter.
 *
 *   ω_d = 2π · factor · CFC,   ω_a = tan(ω_d T / 2),   N = 1 + √2 ω_a + ω_a²
 *   a0 = ω_a²/N,  a1 = 2 a0,  a2 = a0,  b1 = −2 (ω_a² − 1)/N,  b2 = (−1 + √2 ω_a − ω_a²)/N
 *
 * Dimensionless. A second-order Butterworth section of corner 2.0775 · CFC (SAE J211) or 25/12 · CFC (ISO 6487).
 *
 * @param filterClass CFC, e.g. 60, 180, 600, 1000
 * @param rateHz      sampling rate [Hz]
 * @param standard    "SAE J211" or "ISO 6487"
 * @returns           { a0, a1, a2, b1, b2, cornerHz }
 * @throws            RangeError if the corner is not between 0 and half the sampling rate
 * @source            SAE J211-1, appendix C; ISO 6487, annex A (from memory)
 * @checked           tests/numerics/filter.test.ts
 */
export function frequencyClassCoefficients(filterClass: number, rateHz: number, standard: FilterStandard): FrequencyClassCoefficients {
  const cornerHz = cornerFactors[standard] * filterClass;
  if (!(cornerHz > 0 && cornerHz < rateHz / 2)) throw new RangeError(`filter class ${filterClass}: expected its corner of ${cornerHz} Hz between 0 and half the sampling rate of ${rateHz} Hz`);
  const angle = Math.tan((Math.PI * cornerHz) / rateHz);
  const square = angle * angle;
  const scale = 1 / (1 + Math.SQRT2 * angle + square);
  const a0 = square * scale;
  return { a0, a1: 2 * a0, a2: a0, b1: -2 * (square - 1) * scale, b2: (-1 + Math.SQRT2 * angle - square) * scale, cornerHz };
}

/**
 * Channel-frequency-class filter: two passes, forwards and backwards, so that the phase is left alone.
 *
 *   |H|² of the section in `frequencyClassCoefficients`; −3 dB of both passes together at 5/3 CFC
 *
 * Unit of the samples. Ends: the standards leave them to the user. Here each end is continued by odd reflection
 * (2x₀ − x_k) over one period of the corner frequency, at least 9 samples, with the filter started settled; a level
 * run-out stays level, a straight one straight to a few hundredths of its fall per sample. Within about one such period of an end the result still rests on that continuation: keep
 * quiet samples before and after the pulse. NaN stays NaN, and each stretch between is filtered on its own.
 *
 * @param samples     equally spaced; NaN = missing
 * @param rateHz      sampling rate [Hz]; meant for ≥ `minimumRateHz(filterClass)`
 * @param filterClass CFC
 * @param standard    "SAE J211" or "ISO 6487"
 * @returns           as many filtered samples
 * @throws            RangeError if the corner is not between 0 and half the sampling rate
 * @source            SAE J211-1, appendix C; ISO 6487, annex A (from memory); ends: common practice
 * @checked           tests/numerics/filter.test.ts
 */
export function frequencyClassFilter(samples: ArrayLike<number>, rateHz: number, filterClass: number, standard: FilterStandard): Float64Array {
  const { a0, a1, a2, b1, b2, cornerHz } = frequencyClassCoefficients(filterClass, rateHz, standard);
  const section: Section = { b0: a0, b1: a1, b2: a2, a1: -b1, a2: -b2 };
  return forwardBackward([section], samples, frequencyClassReach(rateHz, cornerHz));
}

/**
 * How far `frequencyClassFilter` continues each end.
 *
 *   reach = max(9, ⌈f_s / f_corner⌉) samples: one period of the corner
 *
 * @param rateHz   sampling rate [Hz]
 * @param cornerHz corner of one pass [Hz]
 * @returns        number of samples
 * @source         common practice
 * @checked        tests/numerics/filter.test.ts
 */
export function frequencyClassReach(rateHz: number, cornerHz: number): number {
  return Math.max(leastReach, Math.ceil(rateHz / cornerHz));
}

/**
 * Zero-phase Butterworth low-pass: forwards, then backwards.
 *
 *   gain |H(f)|² = 1 / (1 + (tan(πf/f_s) / tan(πf_c/f_s))^(2n))
 *
 * Unit of the samples. At the cut-off both passes together leave one half (−6 dB); −3 dB lies lower, near
 * f_c (√2 − 1)^(1/2n). Ends are continued by odd reflection over 3 (n + 1) samples, with each section started settled.
 * NaN stays NaN, and each stretch between is filtered on its own.
 *
 * @param samples  equally spaced; NaN = missing
 * @param rateHz   sampling rate [Hz]
 * @param cutoffHz cut-off f_c of one pass [Hz], between 0 and half the rate
 * @param order    order n of one pass, ≥ 1, whole
 * @returns        as many filtered samples
 * @throws         RangeError if the cut-off is not between 0 and half the rate, or the order is not a whole number ≥ 1
 * @source         Oppenheim & Schafer, Discrete-Time Signal Processing, chapter 7 (from memory); ends as in SciPy's sosfiltfilt
 * @checked        tests/numerics/filter.test.ts
 */
export function zeroPhaseLowPass(samples: ArrayLike<number>, rateHz: number, cutoffHz: number, order: number): Float64Array {
  return forwardBackward(butterworthSections(rateHz, cutoffHz, order), samples, 3 * (order + 1));
}

/**
 * Gain of the two passes of a channel-frequency-class filter at a frequency.
 *
 *   |H(e^{jωT})|²
 *
 * Dimensionless; 20 log₁₀ of it is the attenuation in dB that the standards' corridor speaks of.
 *
 * @param frequencyHz 0 … half the sampling rate [Hz]
 * @param filterClass CFC
 * @param rateHz      sampling rate [Hz]
 * @param standard    "SAE J211" or "ISO 6487"
 * @returns           gain, 1 at 0 Hz
 * @throws            RangeError if the corner is not between 0 and half the sampling rate
 * @source            definition of the transfer function
 * @checked           tests/numerics/filter.test.ts
 */
export function frequencyClassGain(frequencyHz: number, filterClass: number, rateHz: number, standard: FilterStandard): number {
  const { a0, a1, a2, b1, b2 } = frequencyClassCoefficients(filterClass, rateHz, standard);
  const angle = (2 * Math.PI * frequencyHz) / rateHz;
  const square = (c0: number, c1: number, c2: number): number => {
    const real = c0 + c1 * Math.cos(angle) + c2 * Math.cos(2 * angle);
    const imaginary = c1 * Math.sin(angle) + c2 * Math.sin(2 * angle);
    return real * real + imaginary * imaginary;
  };
  return square(a0, a1, a2) / square(1, -b1, -b2);
}
