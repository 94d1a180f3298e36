import FFT from "fft.js";

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

/** Smallest power of two that is ≥ size and ≥ 2. */
export function powerOfTwo(size: number): number {
  let power = 2;
  while (power < size) power *= 2;
  return power;
}

/** Transform of a real signal, continued by zeros to `size`, a power of two; all `size` values. */
export function paddedTransform(samples: ArrayLike<number>, size: number): Interleaved {
  const input = new Array<number>(size).fill(0);
  for (let i = 0; i < samples.length; i++) input[i] = samples[i] as number;
  const output = new Array<number>(2 * size).fill(0);
  const plan = planOf(size);
  plan.realTransform(output, input);
  plan.completeSpectrum(output);
  return output;
}

/** Inverse transform with the factor 1/size; length a power of two. */
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
 * Unit of the samples. Powers of two directly, other lengths as a chirp convolution (Bluestein). A NaN spoils every value.
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
