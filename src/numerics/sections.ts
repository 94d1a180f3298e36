/** One second-order filter section, a₀ = 1: y = b0 x + b1 x₋₁ + b2 x₋₂ − a1 y₋₁ − a2 y₋₂. */
export interface Section {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

/**
 * Butterworth low-pass of any order as second-order sections, by the bilinear transform with the cut-off held.
 *
 *   K = tan(π f_c / f_s),   Q_k = 1 / (2 sin((2k − 1) π / 2n))
 *   b = K² (1, 2, 1) / (1 + K/Q + K²),   a = (1, 2(K² − 1), 1 − K/Q + K²) / (1 + K/Q + K²)
 *
 * Gain 1 at 0 Hz and 1/√2 at the cut-off, for one pass.
 *
 * @param rateHz   sampling rate [Hz]
 * @param cutoffHz cut-off [Hz], between 0 and half the rate
 * @param order    ≥ 1, whole
 * @returns        ⌈order/2⌉ sections
 * @throws         RangeError if the cut-off is not between 0 and half the rate, or the order is not a whole number ≥ 1
 * @source         Oppenheim & Schafer, Discrete-Time Signal Processing, chapter 7 (from memory)
 * @checked        tests/numerics/filter.test.ts
 */
export function butterworthSections(rateHz: number, cutoffHz: number, order: number): Section[] {
  if (!(cutoffHz > 0 && cutoffHz < rateHz / 2)) throw new RangeError(`expected a cut-off between 0 and half the sampling rate of ${rateHz} Hz, found ${cutoffHz} Hz`);
  if (!Number.isInteger(order) || order < 1) throw new RangeError(`expected a whole filter order of at least 1, found ${order}`);
  const k = Math.tan((Math.PI * cutoffHz) / rateHz);
  const sections: Section[] = [];
  for (let pair = 1; pair <= Math.floor(order / 2); pair++) {
    const inverseQ = 2 * Math.sin(((2 * pair - 1) * Math.PI) / (2 * order));
    const scale = 1 / (1 + k * inverseQ + k * k);
    const b0 = k * k * scale;
    sections.push({ b0, b1: 2 * b0, b2: b0, a1: 2 * (k * k - 1) * scale, a2: (1 - k * inverseQ + k * k) * scale });
  }
  if (order % 2 === 1) sections.push({ b0: k / (1 + k), b1: k / (1 + k), b2: 0, a1: (k - 1) / (1 + k), a2: 0 });
  return sections;
}

/**
 * Runs sections forwards, then backwards, so that no delay remains; each stretch between NaN on its own.
 *
 *   each end is continued by odd reflection, 2x₀ − x_k, over `reach` samples, and each section starts settled at the
 *   first value of the continued signal; the continuation is cut off again
 *
 * Attenuation is that of one pass squared. A stretch of up to `reach` samples is continued by as much as it has.
 * NaN samples stay NaN and poison nothing else.
 *
 * @param sections second-order sections with gain 1 at 0 Hz
 * @param samples  equally spaced; NaN = missing
 * @param reach    samples of odd reflection at each end
 * @returns        as many filtered samples
 * @source         Gustafsson, IEEE Trans. Signal Process. 44 (1996) 988 names the problem; odd reflection as in SciPy's sosfiltfilt
 * @checked        tests/numerics/filter.test.ts
 */
export function forwardBackward(sections: readonly Section[], samples: ArrayLike<number>, reach: number): Float64Array {
  const filtered = new Float64Array(samples.length).fill(Number.NaN);
  let from = 0;
  while (from < samples.length) {
    if (Number.isNaN(samples[from])) {
      from++;
      continue;
    }
    let to = from;
    while (to < samples.length && !Number.isNaN(samples[to])) to++;
    filterStretch(sections, samples, from, to, Math.min(reach, to - from - 1), filtered);
    from = to;
  }
  return filtered;
}

function filterStretch(sections: readonly Section[], samples: ArrayLike<number>, from: number, to: number, reach: number, filtered: Float64Array): void {
  const count = to - from;
  const padded = new Float64Array(count + 2 * reach);
  const first = samples[from] as number;
  const last = samples[to - 1] as number;
  for (let k = 0; k < reach; k++) {
    padded[k] = 2 * first - (samples[from + reach - k] as number);
    padded[reach + count + k] = 2 * last - (samples[to - 2 - k] as number);
  }
  for (let i = 0; i < count; i++) padded[reach + i] = samples[from + i] as number;
  for (const section of sections) pass(section, padded);
  padded.reverse();
  for (const section of sections) pass(section, padded);
  padded.reverse();
  filtered.set(padded.subarray(reach, reach + count), from);
}

/** One section over the signal in place (transposed direct form II), started as if its first value had stood for ever. */
function pass({ b0, b1, b2, a1, a2 }: Section, signal: Float64Array): void {
  const first = signal[0] as number;
  let second = (b2 - a2) * first;
  let state = (b1 - a1) * first + second;
  for (let i = 0; i < signal.length; i++) {
    const x = signal[i] as number;
    const y = b0 * x + state;
    state = b1 * x - a1 * y + second;
    second = b2 * x - a2 * y;
    signal[i] = y;
  }
}
